/** Where wires may end at their lugs, which others had better leave free. */
import type { Access, Pad } from '../symbols/symbol.js';
import { surcharges, type Frame } from './field.js';
import { prices, type Field, type Gate } from './grid-field.js';
import type { Joined } from './joints.js';

/** Where a wire may end at a lug. */
export function gatesOf(frame: Frame, pad: Pad): Gate[] {
  return pad.accesses.map((access) => {
    const gate = {
      cell: frame.cellAt(access),
      heading: access.heading,
      cost: Math.round(access.cost * prices.step) - (isKeptClear(pad, access) ? surcharges.access : 0),
    };
    const tip = frame.cellAt(access.landing);
    return pad.look !== 'lug' && tip !== gate.cell ? { ...gate, tip } : gate;
  });
}

/** Other wires had better not pass where one wants to leave its lug. */
export function keepAccessesClear(
  { surcharge }: Field,
  frame: Frame,
  pads: ReadonlyMap<string, Pad>,
  tasks: readonly Joined[],
): void {
  for (const lug of new Set(tasks.flatMap(({ lugs }) => lugs))) {
    const pad = pads.get(lug);
    for (const access of pad?.accesses ?? []) {
      if (!pad || !isKeptClear(pad, access)) continue;
      const cell = frame.cellAt(access);
      surcharge[cell] = (surcharge[cell] ?? 0) + surcharges.access;
    }
  }
}

/** The ways by which a wire would leave a lug first. */
function isKeptClear({ look }: Pad, { cost }: Access): boolean {
  return look !== 'spot' && cost < 1;
}
