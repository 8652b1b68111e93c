/** The circuit that a new document begins with: one pickup, one volume, everything grounded, one intent that holds. */

export const starter = `instrument "Untitled"

// One pickup straight to a volume control.
part pickup : single-coil 6.5k 2.6H 110pF
part volume : pot 250k audio
part saddle : bridge-ground
part output : jack

wire pickup.hot    to volume.3
wire volume.2      to output.tip white
solder volume.1    to volume.case
wire pickup.ground to volume.case
wire saddle        to volume.case black
wire volume.case   to output.sleeve black

expect          : sounds pickup
expect volume 0 : silent
`;
