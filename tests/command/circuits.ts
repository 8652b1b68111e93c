/** Small circuits for the tests of the command: one that is clean, and what is changed in it. */

/** Two pickups on a lever, clean. Row by row: bridge, both, neck. */
export const clean = `instrument "Alder Lane no. 3"

part bridge   : single-coil 6.9k 2.9H 120pF { wound reverse, magnet south }
part neck     : single-coil 6.2k 2.4H 110pF
part selector : lever-3 { positions "bridge" "both" "neck" }
part volume   : pot 250k audio
part saddle   : bridge-ground
part output   : jack

wire bridge.hot  to selector.A1
wire neck.hot    to selector.B3
wire selector.A1 to selector.A2
wire selector.B3 to selector.B2
wire selector.A0 to selector.B0 to volume.3
wire volume.2    to output.tip
solder volume.1  to volume.case
wire bridge.ground  to volume.case
wire neck.ground    to volume.case
wire selector.frame to volume.case
wire saddle         to volume.case
wire volume.case    to output.sleeve

expect selector "both" : sounds parallel(bridge, neck), hum cancelled
`;

/** The neck's ground wire is left off: an error. */
export const broken = clean.replace('wire neck.ground    to volume.case\n', '');

/** A line that cannot be read: an error of the text. */
export const unreadable = clean.replace('wire volume.2    to output.tip\n', 'wire volume.2\n');

/** Types only. */
export const library = `type mute : switch {
  lugs A0 A1 frame
  positions "on" "off"
  at "on" joins A0 A1
  metal frame
}
`;
