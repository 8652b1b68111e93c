/** Three circuits of our own that hold every statement form between them, for recovery, formatting and re-reading. */

/** Two pickups, written as most people will. */
const plain = `/** Two single-coils, lever switch, one volume, one tone. */
instrument "Alder Lane no. 4" { batch 2, seen back }
use "house.lug"

part bridge   : single-coil 6.9k 2.9H 120pF { wound reverse, magnet south }
part neck     : single-coil 6.2k 2.4H 110pF { lead hot white 300mm, lead ground black 300mm }
part selector : lever-3 { positions "bridge" "both" "neck" }
part volume   : pot 250k audio
part tone     : pot A250K { rest 7 }
part tone-cap : capacitor 22nF film from tone.1 to tone.case
part bleed    : resistor R47 { tolerance 5% } across volume.3 and volume.2
part saddle   : bridge-ground
part output   : jack

wire bridge.hot  to selector.A1
wire neck.hot    to selector.B3
wire selector.A1 to selector.A2
wire selector.A0 to selector.B0 to volume.3 yellow 22awg
wire volume.3    to tone.2
wire volume.2    to output.tip white shielded screen to output.sleeve and volume.case
solder volume.1  to volume.case
wire saddle to volume.case black // the strings
wire volume.case to tone.case to output.sleeve black

expect selector "bridge" : sounds bridge, hum present
expect selector "both"   : sounds parallel(neck, reversed bridge), hum cancelled
expect selector "neck"   : sounds neck, reads 6.05k within 15%, peak 3.2kHz within 10%
expect volume 0          : silent
`;

/** Types of one's own, in several layouts. */
const types = `// Parts of the house, and one instrument that uses them.
instrument "Alder Lane no. 9"

type kill-slide : switch {
  lugs A0 A1 A2 frame
  rows A1 A0 A2 / - frame -
  positions "play" "mute"
  at "play" joins A0 A1
  at "mute" joins A0 A2
  rest "play"
  metal frame
}
/** A pickup wound here. */
type dark-coil : pickup {
  lugs hot ground
  optional cover
  takes resistance 8.1k, inductance 4.6H, wound forward|reverse, magnet north|south
  coil main from ground to hot { resistance resistance, inductance inductance, capacitance 90pF }
  metal cover
  also screw for main
}
type bleed : assembly {
lugs top bottom
part c : capacitor 680pF from top to bottom
part r : resistor 150k from top to bottom
}
type mute : switch { lugs A0 A1 at 1 joins A0 A1 metal frame }
type strip : control {
  optional 1 to 99
  track from 1 to 3 wiper 2 { taper audio }
}

part kill : kill-slide
part one, two : dark-coil 7.9k
part treble : bleed
part volume : pot ?
part output : jack
wire one.hot to two.hot to kill.A0
wire kill.A1 to volume.3
wire kill.A2 to volume.1
wire volume.3 to treble.top
wire volume.2 to treble.bottom
wire volume.2 to output.tip
expect kill "play" : sounds parallel(one, two)
expect kill "mute" : silent
`;

/** Cavities and plates, readings, statements over several lines. */
const body = `instrument "Alder Lane no. 12" { hand left }
cavity main shield depth 38mm
cavity side
channel main to side 85mm bore 6mm
part bridge : humbucker-4 8.4k 4.6H {
  wound reverse
  lead north-start red 300mm
  insulated
}
part selector : lever-5 {
  positions "a", "b", "c",
    "d", "e", wound reverse
}
part blend : pot-blend 500k
part volume, tone : pot 250k audio
part output : jack
part star-point : star
plate lid in main metal {
  selector at 20 15,
  volume at 60mm 15mm
  tone
}
place bridge, output in side at 10 5
rig { cable 3m, input 1M }
wire bridge.north-start
  to selector.A1
  to blend.1a
wire bridge.south-start to
  selector.B1 white-red 24awg
wire blend.2a to volume.3
wire volume.2 to output.tip
wire star-point to output.sleeve
wire main to star-point
wire lid to star-point
expect selector 1, volume 10,
  tone 5 : sounds series(
    bridge.north,
    bridge.south 30%
  ), hum cancelled
expect blend 5 : sounds mixed(bridge.north 100%, bridge.south 40%)
measured selector 1 volume 5 : reads 6.2k within 3%, hums
measured between blend.1a and volume.3 selector 2 : reads short
measured : reads open
allow ground-loop on lid "screens only touch"
allow many-wires on star-point.lug "it is the star"
`;

export const circuits = { plain, types, body } as const;
