/** Draws something before anybody asks, so that the first drawing needn't wait for its thread to start and the engine to compile it. */
import { createProject } from '../../../language/project.js';
import type { ServiceHost, Workspace } from '../workspace.js';

/** What most instruments have: a switch between pickups, pots, a capacitor between two lugs, wires past each other. */
const text = `part bridge, neck : single-coil
part selector : lever-3
part volume, tone : pot 250k
part tone-cap : capacitor 22nF from tone.1 to tone.case
part output : jack
wire bridge.hot to selector.A1
wire neck.hot to selector.A3
wire selector.A0 to volume.3
wire volume.3 to tone.2
wire volume.2 to output.tip
solder volume.1 to volume.case
wire bridge.ground to volume.case
wire neck.ground to volume.case
wire volume.case to tone.case
wire tone.case to output.sleeve
`;
const uri = 'lugwork:/warm-up.lug';

/** For a client that shows drawings, where they are made beside the server. */
export async function warmUp(workspace: Workspace, host: ServiceHost): Promise<void> {
  if (workspace.client.showsDrawings !== true) return;
  const draw = host.draw?.(workspace.client);
  const circuit = createProject({ read: () => text }).circuit(uri);
  if (draw !== undefined && circuit !== undefined) await draw(uri, circuit, { side: 'solder' });
}
