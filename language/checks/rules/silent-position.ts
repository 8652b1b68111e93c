/** A switch position at which nothing is heard, however the other switches stand. */
import type { Circuit, Switch } from '../../circuit/model.js';
import { nets } from '../../electrics/index.js';
import { controlAt, describeControl, describeSettings, placeOfPart, settingsOf } from '../facts/index.js';
import { isShortedAt } from '../facts/signal/shorted.js';
import { silenceOf } from '../facts/signal/silence.js';
import { defineRule } from '../rule.js';
import type { SourceRange, Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind: 'shorted' | 'unreached';
  readonly subjects: { readonly switch: string; readonly output?: string };
}

export const silentPosition = defineRule<Claim>({
  id: 'silent-position',
  severity: 'warning',
  summary: 'a switch position at which nothing is heard and no expectation asks for silence',
  describe({ kind, subjects: { output }, ...claim }) {
    const [from, reached] = output === undefined ? ['', 'the output'] : [`from ${output} `, 'it'];
    return `Nothing is heard ${from}${describeSettings(claim)}: ${kind === 'shorted' ? 'tip and sleeve are one net there' : `no pickup reaches ${reached} there`}`;
  },
  check(facts) {
    const { circuit } = facts;
    return silenceOf(facts).alone.map(({ device, position, settings, output }) => {
      const shorted = settings.every((setting) => isShortedAt(circuit, nets(circuit, setting.positions), setting));
      return {
        claim: {
          kind: shorted ? 'shorted' : 'unreached',
          subjects: { switch: device.name, ...(output === undefined ? {} : { output }) },
          ...settingsOf(circuit, facts.settings(), settings),
        },
        why: `Often a lead is one lug too far. If it is intended as a mute, say so: \`expect ${describeControl(controlAt(device, [position]))} : silent\`.`,
        range: placeOf(circuit, device, position),
        subjects: [device.name],
      };
    });
  },
});

/** The position's name where this file gives it; a name that comes with the type stands in another file. */
function placeOf(circuit: Circuit, device: Switch, position: number): SourceRange {
  const part = placeOfPart(circuit, device.part);
  const named = device.positions[position]?.range;
  return named?.uri === part.uri ? named : part;
}
