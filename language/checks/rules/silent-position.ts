/** A switch position at which nothing is heard, however the other switches stand. */
import type { Circuit, Switch } from '../../circuit/model.js';
import { nets } from '../../electrics/index.js';
import { placeOfPart, positionsSaid, whereSaid } from '../facts/index.js';
import { isShortedAt } from '../facts/signal/shorted.js';
import { silenceOf } from '../facts/signal/silence.js';
import { defineRule } from '../rule.js';
import type { SourceRange } from '../../source.js';

export const silentPosition = defineRule({
  id: 'silent-position',
  severity: 'warning',
  summary: 'a switch position at which nothing is heard and no expectation asks for silence',
  check(facts) {
    const { circuit } = facts;
    return silenceOf(facts).alone.map(({ device, position, settings }) => {
      const all = facts.settings().filter((setting) => setting.positions[device.id] === position);
      const where = settings.length < all.length ? ` (${whereSaid(circuit, facts.settings(), settings)})` : '';
      const shorted = settings.every((setting) => isShortedAt(circuit, nets(circuit, setting.positions), setting));
      return {
        message: `${positionsSaid(device, [position])} is silent${where}: ${shorted ? 'nothing lies between tip and sleeve there' : 'no pickup reaches the output there'}`,
        why: `Often a lead sits one lug too far. If it is meant as a mute, say so: \`expect ${device.name} ${spoken(device.positions[position]!)} : silent\`.`,
        range: placeOf(circuit, device, position),
        subjects: [device.name],
      };
    });
  },
});

/** The position's name where this file gives it; a name that comes with the type stands in another file. */
function placeOf(circuit: Circuit, device: Switch, position: number): SourceRange {
  const part = placeOfPart(circuit, device.part);
  const named = device.positions[position]!.range;
  return named?.uri === part.uri ? named : part;
}

function spoken({ label, key }: { readonly label: string; readonly key: string }): string {
  return label === key ? key : `"${label}"`;
}
