/** A connector that can be mated the other way round, and must not be. */
import { isMated, partById, type Gain, type Switch } from '../../circuit/model.js';
import { isAlive, nets, withPosition, type Setting } from '../../electrics/index.js';
import type { Statement } from '../../source.js';
import { abridged, describeSettings, placeOfPart, settingsOf, type Facts } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';

interface Claim extends Statement {
  readonly kind: 'supply' | 'silent';
  readonly subjects: { readonly connector: string; readonly position: string; readonly stages?: readonly string[] };
}

export const reversedConnector = defineRule<Claim>({
  id: 'reversed-connector',
  severity: 'warning',
  summary: 'a connector that reverses the battery or silences the signal when it is mated the other way round',
  describe({ kind, subjects: { connector, position, stages = [] }, ...claim }) {
    if (kind === 'supply')
      return `${connector} can be mated wrongly: ${position}, it connects the battery of ${abridged(stages)} the wrong way round`;
    const where = describeSettings(claim);
    return `${connector} can be mated wrongly: ${position}, it silences the signal${where && ` ${where}`}`;
  },
  check(facts): readonly Report<Claim>[] {
    const { circuit, unread } = facts;
    const mated = circuit.switches.filter((device) => isMated(circuit, device));
    if (mated.length === 0 || facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    return mated.flatMap((device) =>
      device.positions.flatMap((position, index): readonly Report<Claim>[] => {
        const harm = index === device.rest ? undefined : harmOf(facts, device, index);
        if (harm === undefined) return [];
        return [
          {
            claim: {
              kind: harm.kind,
              subjects: {
                connector: device.name,
                position: position.label,
                ...(harm.kind === 'supply' ? { stages: harm.stages } : {}),
              },
              ...(harm.kind === 'silent' ? settingsOf(circuit, facts.settings(), harm.settings) : {}),
            },
            why:
              harm.kind === 'supply'
                ? 'A stage that is fed the wrong way round may be destroyed. Use a connector that fits one way only, and leave out `reversible`; or put plus on the middle contact of three and minus on both outer ones.'
                : 'Use a connector that fits one way only, and leave out `reversible`; or arrange the contacts so that both ways give the same connections.',
            range: placeOfPart(circuit, device.part),
            subjects: [device.name, ...(harm.kind === 'supply' ? harm.stages : [])],
          },
        ];
      }),
    );
  },
});

type Harm =
  | { readonly kind: 'supply'; readonly stages: readonly string[] }
  | { readonly kind: 'silent'; readonly settings: readonly Setting[] };

/** What the position does that the one in which the connector rests doesn't do; a supply weighs more than silence, which follows from it. */
function harmOf({ circuit, groups, signal }: Facts, device: Switch, index: number): Harm | undefined {
  const mated = (setting: Setting): Setting => withPosition(setting, device.id, index);
  const turned = circuit.elements
    .filter((element): element is Gain => element.kind === 'gain')
    .filter((stage) => {
      const backwards: Gain = { ...stage, plus: stage.minus, minus: stage.plus };
      return groups().some(
        ({ setting, folded }) =>
          isAlive(circuit, folded, stage) && isAlive(circuit, nets(circuit, mated(setting).positions), backwards),
      );
    });
  if (turned.length > 0) {
    return { kind: 'supply', stages: [...new Set(turned.map(({ part }) => partById(circuit, part).name))] };
  }
  const silenced = groups().filter(({ setting }) => !signal.sound(setting).silent && signal.sound(mated(setting)).silent);
  return silenced.length === 0 ? undefined : { kind: 'silent', settings: silenced.flatMap(({ settings }) => settings) };
}
