/** The circuits to start from as text, by name. Made by server/scripts/embed-parts.mjs from the .lug files of language/starts/. */
export const STARTS: Readonly<Record<string, string>> = {
  'one-pickup-with-tone': `/** One pickup, a volume and a tone. */
instrument "Untitled"

part pickup   : humbucker 8.1k 4.5H 120pF
part volume   : pot 500k audio
part tone     : pot 500k audio
part tone-cap : capacitor 22nF from tone.1 to tone.case
part saddle   : bridge-ground
part output   : jack

wire pickup.hot to volume.3
wire volume.3   to tone.2
wire volume.2   to output.tip white
solder volume.1 to volume.case
wire pickup.ground to volume.case
wire saddle        to volume.case black
wire volume.case to tone.case to output.sleeve black

expect          : sounds pickup
expect volume 0 : silent
`,
  'one-pickup': `/** One pickup straight to a volume control. */
instrument "Untitled"

part pickup : single-coil 6.5k 2.6H 110pF
part volume : pot 250k audio
part saddle : bridge-ground
part output : jack

wire pickup.hot to volume.3
wire volume.2   to output.tip white
solder volume.1 to volume.case
wire pickup.ground to volume.case
wire saddle        to volume.case black
wire volume.case   to output.sleeve black

expect          : sounds pickup
expect volume 0 : silent
`,
  'three-pickups-lever-5': `/** Three pickups on a lever with five positions, a volume and a tone each for neck and middle. */
instrument "Untitled"

part neck        : single-coil 6.1k 2.3H 105pF
part middle      : single-coil 6.3k 2.4H 110pF { wound reverse, magnet south }
part bridge      : single-coil 6.8k 2.8H 115pF
part selector    : lever-5 { positions "bridge" "bridge and middle" "middle" "middle and neck" "neck" }
part volume      : pot 250k audio
part neck-tone   : pot 250k audio
part middle-tone : pot 250k audio
part tone-cap    : capacitor 22nF from neck-tone.1 to neck-tone.case
part saddle      : bridge-ground
part output      : jack

// Pole A chooses the pickups, pole B their tones; the two commons are joined.
wire bridge.hot  to selector.A1
wire middle.hot  to selector.A2
wire neck.hot    to selector.A3
wire selector.A0 to selector.B0 to volume.3
wire selector.B2 to middle-tone.2
wire selector.B3 to neck-tone.2
wire neck-tone.1 to middle-tone.1
wire volume.2    to output.tip white

solder volume.1 to volume.case
wire selector.frame to volume.case black
wire neck-tone.case to middle-tone.case to volume.case black
wire neck.ground    to volume.case
wire middle.ground  to volume.case
wire bridge.ground  to volume.case
wire saddle         to volume.case black
wire volume.case    to output.sleeve black

expect selector "bridge"            : sounds bridge
expect selector "bridge and middle" : sounds parallel(bridge, middle), hum cancelled
expect selector "middle"            : sounds middle
expect selector "middle and neck"   : sounds parallel(middle, neck), hum cancelled
expect selector "neck"              : sounds neck
expect volume 0                     : silent
`,
  'two-humbuckers-split': `/** Two humbuckers on a toggle switch, a volume, and a tone whose push-pull switch leaves one coil of each. */
instrument "Untitled"

part neck     : humbucker-4 7.6k 4.2H 120pF
part bridge   : humbucker-4 8.2k 4.6H 125pF
part selector : toggle-3 { positions "neck" "both" "bridge" }
part volume   : pot 500k audio
part tone     : pot-push-pull 500k audio { positions "both coils" "one coil" }
part tone-cap : capacitor 22nF from tone.1 to tone.case
part saddle   : bridge-ground
part output   : jack

// North start is hot and south start is ground; where the coils meet, the switch can join them to ground.
wire neck.north-start   to selector.A
wire neck.north-finish to neck.south-finish to tone.A0
wire bridge.north-start to selector.B
wire bridge.north-finish to bridge.south-finish to tone.B0
wire tone.A2 to tone.B2 to tone.case
wire selector.out       to volume.3
wire volume.3           to tone.2
wire volume.2           to output.tip white

solder volume.1 to volume.case
wire neck.south-start   to volume.case
wire neck.shield        to volume.case
wire bridge.south-start to volume.case
wire bridge.shield      to volume.case
wire selector.frame     to volume.case black
wire saddle             to volume.case black
wire tone.case to volume.case to output.sleeve black

expect selector "neck", tone "both coils"   : sounds neck
expect selector "both", tone "both coils"   : sounds parallel(bridge, neck)
expect selector "bridge", tone "both coils" : sounds bridge
expect selector "neck", tone "one coil"     : sounds neck.north
expect selector "both", tone "one coil"     : sounds parallel(bridge.north, neck.north)
expect selector "bridge", tone "one coil"   : sounds bridge.north
expect volume 0                             : silent
`,
  'two-humbuckers-toggle': `/** Two humbuckers on a toggle switch, a volume and a tone for each. */
instrument "Untitled"

part neck          : humbucker 7.6k 4.2H 120pF
part bridge        : humbucker 8.2k 4.6H 125pF
part selector      : toggle-3 { positions "neck" "both" "bridge" }
part neck-volume   : pot 500k audio
part bridge-volume : pot 500k audio
part neck-tone     : pot 500k audio
part bridge-tone   : pot 500k audio
part neck-cap      : capacitor 22nF from neck-tone.1 to neck-tone.case
part bridge-cap    : capacitor 22nF from bridge-tone.1 to bridge-tone.case
part saddle        : bridge-ground
part output        : jack

// Each pickup is on the wiper of its volume, so that one volume at 0 does not silence the other.
wire neck.hot to neck-volume.2 to neck-tone.2
wire bridge.hot to bridge-volume.2 to bridge-tone.2
wire neck-volume.3   to selector.A
wire bridge-volume.3 to selector.B
wire selector.out    to output.tip white

solder neck-volume.1   to neck-volume.case
solder bridge-volume.1 to bridge-volume.case
wire neck.ground   to neck-volume.case
wire bridge.ground to bridge-volume.case
wire saddle        to bridge-volume.case black
wire neck-tone.case to neck-volume.case to bridge-volume.case to bridge-tone.case black
wire bridge-volume.case to selector.frame to output.sleeve black

expect selector "neck"                : sounds neck
expect selector "both"                : sounds parallel(bridge, neck)
expect selector "bridge"              : sounds bridge
expect neck-volume 0, bridge-volume 0 : silent
expect selector "both", neck-volume 0 : sounds bridge
`,
  'two-pickups-blend': `/** Two pickups for a bass on a blend, a volume and a tone. */
instrument "Untitled"

part neck     : single-coil 7.4k 3.1H 120pF
part bridge   : single-coil 7.9k 3.4H 125pF { wound reverse, magnet south }
part blend    : pot-blend 250k linear
part volume   : pot 250k audio
part tone     : pot 250k audio
part tone-cap : capacitor 47nF from tone.1 to tone.case
part saddle   : bridge-ground
part output   : jack

// Each pickup is on its wiper and both hot ends are joined: half way both are full up.
wire neck.hot   to blend.2a
wire bridge.hot to blend.2b
wire blend.3a to blend.3b to volume.3
wire volume.3   to tone.2
wire volume.2   to output.tip white

wire blend.1a to blend.1b to blend.case bare
solder volume.1 to volume.case
wire neck.ground   to volume.case
wire bridge.ground to volume.case
wire saddle        to volume.case black
wire blend.case to volume.case to tone.case to output.sleeve black

expect blend 5  : sounds parallel(bridge, neck), hum cancelled
expect blend 0  : sounds bridge
expect blend 10 : sounds neck
expect volume 0 : silent
`,
  'two-pickups-lever-3': `/** Two pickups on a lever with three positions, a volume and a tone. */
instrument "Untitled"

part bridge   : single-coil 6.9k 2.9H 120pF { wound reverse, magnet south }
part neck     : single-coil 6.2k 2.4H 110pF
part selector : lever-3 { positions "bridge" "both" "neck" }
part volume   : pot 250k audio
part tone     : pot 250k audio
part tone-cap : capacitor 22nF from tone.1 to tone.case
part saddle   : bridge-ground
part output   : jack

// Pole A carries the bridge in positions 1 and 2, pole B the neck in 2 and 3; the two commons are joined.
wire bridge.hot  to selector.A1
wire neck.hot    to selector.B3
wire selector.A1 to selector.A2 bare
wire selector.B3 to selector.B2 bare
wire selector.A0 to selector.B0 to volume.3
wire volume.3    to tone.2
wire volume.2    to output.tip white

solder volume.1 to volume.case
wire bridge.ground  to volume.case
wire neck.ground    to volume.case
wire selector.frame to volume.case black
wire saddle         to volume.case black
wire volume.case to tone.case to output.sleeve black

expect selector "bridge" : sounds bridge
expect selector "both"   : sounds parallel(bridge, neck), hum cancelled
expect selector "neck"   : sounds neck
expect volume 0          : silent
`,
  'two-pickups-two-volumes': `/** Two pickups for a bass, a volume for each and one tone, without a switch. */
instrument "Untitled"

part neck          : single-coil 7.4k 3.1H 120pF
part bridge        : single-coil 7.9k 3.4H 125pF { wound reverse, magnet south }
part neck-volume   : pot 250k audio
part bridge-volume : pot 250k audio
part tone          : pot 250k audio
part tone-cap      : capacitor 47nF from tone.1 to tone.case
part saddle        : bridge-ground
part output        : jack

// Each pickup is on its wiper, so that one volume at 0 does not silence the other.
wire neck.hot   to neck-volume.2
wire bridge.hot to bridge-volume.2
wire neck-volume.3 to bridge-volume.3 to tone.2
wire tone.2     to output.tip white

solder neck-volume.1   to neck-volume.case
solder bridge-volume.1 to bridge-volume.case
wire neck.ground   to neck-volume.case
wire bridge.ground to bridge-volume.case
wire saddle        to neck-volume.case black
wire neck-volume.case to bridge-volume.case to tone.case to output.sleeve black

expect                                : sounds parallel(bridge, neck), hum cancelled
expect bridge-volume 0                : sounds neck
expect neck-volume 0                  : sounds bridge
expect neck-volume 0, bridge-volume 0 : silent
`,
};
