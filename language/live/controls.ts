/** What a player operates: the controls of a circuit, and the setting that their positions make. */
import { itemAt } from '../collections.js';
import { partById, type AnalysedCircuit, type Circuit, type PartId } from '../circuit/model.js';
import { restingSetting, withPosition, withRotation, withSettings, type Setting } from '../electrics/index.js';

/** What a player sets: a switch with its positions in the type's order, or a shaft. */
export type DrawnControl = DrawnSwitch | DrawnShaft;

export interface DrawnSwitch {
  readonly kind: 'switch';
  readonly name: string;
  /** The part that it is worked on, by its id in the scene. */
  readonly part: string;
  readonly positions: readonly { readonly key: string; readonly label: string }[];
  /** Key of the position that counts where nothing is said. */
  readonly rest: string;
  /** True for one that goes back by itself: a push switch, a jack. */
  readonly returns: boolean;
}

export interface DrawnShaft {
  readonly kind: 'shaft';
  readonly name: string;
  readonly part: string;
  /** Rotation where nothing is said, 0 to 10. */
  readonly rest: number;
  readonly turn: 'right' | 'left';
}

/** How the controls stand, by name; what is not named or not known rests. */
export interface ControlsAt {
  readonly positions: Readonly<Record<string, string>>;
  readonly rotations: Readonly<Record<string, number>>;
}

/** The setting that names ask for; names that the circuit does not have are ignored. */
export function settingAt(circuit: AnalysedCircuit, { positions, rotations }: ControlsAt): Setting {
  let setting = restingSetting(circuit);
  for (const device of circuit.switches) {
    const index = device.positions.findIndex(({ key }) => key === positions[device.name]);
    if (index >= 0) setting = withPosition(setting, device.id, index);
  }
  for (const shaft of circuit.shafts) {
    const rotation = rotations[shaft.name];
    if (rotation !== undefined && Number.isFinite(rotation))
      setting = withRotation(setting, shaft.id, Math.min(10, Math.max(0, rotation)));
  }
  return withSettings(circuit, [], setting);
}

/** What a player sets, in the order of the text; a relay is set by its battery. */
export function controlsOf(circuit: Circuit): DrawnControl[] {
  const switches = circuit.switches
    .filter(({ positions, drive }) => positions.length > 1 && drive === undefined)
    .map(({ name, part, positions, rest }): DrawnControl => ({
      kind: 'switch',
      name,
      part: drawnPart(circuit, part),
      positions: positions.map(({ key, label }) => ({ key, label })),
      rest: itemAt(positions, rest ?? 0).key,
      returns: rest !== undefined,
    }));
  const shafts = circuit.shafts.map(({ name, part, rest, turn }): DrawnControl => ({
    kind: 'shaft',
    name,
    part: drawnPart(circuit, part),
    rest,
    turn,
  }));
  return [...switches, ...shafts];
}

function drawnPart(circuit: Circuit, part: PartId): string {
  return `part:${partById(circuit, part).name}`;
}
