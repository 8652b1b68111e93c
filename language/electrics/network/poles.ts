/** Poles of a switch: lugs that some position joins, with the common that every contact of theirs shares. */
import { type AnalysedCircuit, derive, derivation, type LugId, type Switch } from '../../circuit/model.js';

/** One pole of a switch. */
export interface Pole {
  readonly device: Switch;
  /** The lug in every contact of this pole. A plain on-off contact has none: its two lugs are alike. */
  readonly common?: LugId;
  /** The other lugs (both lugs of an on-off contact). */
  readonly throws: readonly LugId[];
  /** By position index, the contacts of this pole. */
  readonly contacts: readonly (readonly (readonly LugId[])[])[];
}

/** The poles of every switch, in the order of the switches. */
export function polesOf(circuit: AnalysedCircuit): readonly Pole[] {
  return derive(circuit, poles);
}

const poles = derivation(['contacts'], ({ switches }): readonly Pole[] => switches.flatMap((device) => polesOfSwitch(device)));

function polesOfSwitch(device: Switch): readonly Pole[] {
  const groups: Set<LugId>[] = [];
  for (const position of device.positions) {
    for (const contact of position.joins) {
      const touching = groups.filter((group) => contact.some((lug) => group.has(lug)));
      const merged = new Set([...touching.flatMap((group) => [...group]), ...contact]);
      groups.splice(0, groups.length, ...groups.filter((group) => !touching.includes(group)), merged);
    }
  }
  return groups.map((group) =>
    poleOf(
      device,
      [...group].sort((a, b) => a - b),
    ),
  );
}

function poleOf(device: Switch, lugs: readonly LugId[]): Pole {
  const contacts = device.positions.map((position) =>
    position.joins.filter(([first, ...others]) => first !== undefined && others.length > 0 && lugs.includes(first)),
  );
  const all = contacts.flat();
  const shared = lugs.filter((lug) => all.every((contact) => contact.includes(lug)));
  const common = shared.length === 1 ? shared[0] : undefined;
  return { device, ...(common === undefined ? {} : { common }), throws: lugs.filter((lug) => lug !== common), contacts };
}
