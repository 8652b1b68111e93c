/** A circuit of our own for the tests of the editor's features, right in every respect, with marks put in where a test wants them. */

const lines = `/** Two single-coils, lever switch, one volume, one tone. */
instrument "Alder Lane no. 61"

part bridge   : single-coil 6.9k 2.9H 120pF { wound reverse, magnet south }
part neck     : single-coil 6.2k 2.4H 110pF
part selector : lever-3 { positions "bridge" "both" "neck" }
part volume   : pot 250k audio
part tone     : pot 250k audio
part tone-cap : capacitor 22nF film from tone.1 to tone.case
part saddle   : bridge-ground
part output   : jack

wire bridge.hot     to selector.A1
wire neck.hot       to selector.B3
wire selector.A1    to selector.A2
wire selector.B3    to selector.B2
wire selector.A0    to selector.B0 to volume.3 yellow 22awg
wire volume.3       to tone.2
wire volume.2       to output.tip white
solder volume.1     to volume.case
wire bridge.ground  to volume.case
wire neck.ground    to volume.case
wire selector.frame to volume.case black
wire saddle         to volume.case black
wire volume.case    to tone.case to output.sleeve black

expect selector "bridge" : sounds bridge, hum present
expect selector "both"   : sounds parallel(neck, bridge), hum cancelled
expect selector "neck"   : sounds neck, reads 6.05k within 15%
expect volume 0          : silent
`;

/** The circuit, with each first text replaced by the second; the first must stand in it once. */
export function twoPickups(replaced: Readonly<Record<string, string>> = {}): string {
  let text = lines;
  for (const [before, after] of Object.entries(replaced)) {
    if (text.split(before).length !== 2) throw new Error(`\`${before}\` does not stand once in the circuit`);
    text = text.replace(before, () => after);
  }
  return text;
}
