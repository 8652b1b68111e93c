/** A control of the whole instrument that acts in some positions of the selector only. */
import { type AnalysedCircuit, partById, type Shaft, shaftById, type SwitchId } from '../../circuit/model.js';
import { itemAt } from '../../collections.js';
import { outputsOf, type Setting } from '../../electrics/index.js';
import { isPickupWord, rolesOf, tokensOf, pickupsNamedBy, unitName } from '../../roles/index.js';
import type { Statement } from '../../source.js';
import { describeSettings, leading, placeOfPart, settingsOf, type Facts } from '../facts/index.js';
import { isJudgeable } from '../facts/shafts.js';
import { defineRule } from '../rule.js';

interface Claim extends Statement {
  /** Why it is taken for one of the whole instrument: it is the only one of its kind, or it is called master. */
  readonly kind: 'only' | 'master';
  readonly subjects: { readonly control: string; readonly word: Word };
}

type Word = 'volume' | 'tone';

export const oneSidedControl = defineRule<Claim>({
  id: 'one-sided-control',
  severity: 'warning',
  summary: 'the only volume or tone, or a master, that acts in some positions of the selector only',
  describe({ kind, subjects: { control, word }, ...claim }) {
    const usual = kind === 'only' ? `the only ${word} of an instrument` : `a master ${word}`;
    return leading(describeSettings(claim), `${control} does nothing, which is unusual: ${usual} usually acts in every position`);
  },
  check(facts) {
    const { circuit, signal } = facts;
    const selectors = selectorsOf(circuit);
    if (selectors.size === 0 || outputsOf(circuit).length > 1 || !isJudgeable(facts) || signal.neverHeard().size > 0) return [];
    return controlsOfAll(facts).flatMap(({ shaft, kind, word }) => {
      const idle = idleOnOneSide(facts, shaft, word, selectors);
      if (idle.length === 0) return [];
      return [
        {
          claim: { kind, subjects: { control: shaft.name, word }, ...settingsOf(circuit, facts.settings(), idle) },
          why: 'It was left out there, or it branches off before the selector and hears one pickup alone. If it is meant for one pickup, name it after that pickup.',
          range: placeOfPart(circuit, shaft.part),
          subjects: [partById(circuit, shaft.part).name, shaft.name],
        },
      ];
    });
  },
});

/** The switches that choose among the pickups. */
function selectorsOf(circuit: AnalysedCircuit): ReadonlySet<SwitchId> {
  return new Set(
    rolesOf(circuit).flatMap(({ unit, word, confidence }) =>
      unit.kind === 'switch' && word === 'selector' && confidence !== 'weak' ? [unit.switch] : [],
    ),
  );
}

/** Volumes and tones that are not one pickup's: the only one of its kind, or one that is called master. */
function controlsOfAll({ circuit }: Facts): readonly (Pick<Claim, 'kind'> & { readonly shaft: Shaft; readonly word: Word })[] {
  const roles = rolesOf(circuit);
  return roles.flatMap(({ unit, word, confidence }) => {
    if (unit.kind !== 'pot' || (word !== 'volume' && word !== 'tone') || confidence === 'weak') return [];
    const tokens = tokensOf(unitName(circuit, unit));
    const part = partById(circuit, unit.part);
    if (tokens.some(isPickupWord) || pickupsNamedBy(circuit, part).length > 0) return [];
    const isOnly = roles.every((other) => other.unit === unit || other.unit.kind !== 'pot' || other.word !== word);
    if (!isOnly && !tokens.includes('master')) return [];
    return [{ kind: isOnly ? 'only' : 'master', shaft: shaftById(circuit, unit.shaft), word }];
  });
}

/**
 * The settings in which something is heard and the control does nothing, although it acts once the selector alone is moved. Those that are there to bypass it are left
 * out: where the same is heard as in another position with it, and where no other control acts either.
 */
function idleOnOneSide(facts: Facts, shaft: Shaft, word: Word, selectors: ReadonlySet<SwitchId>): readonly Setting[] {
  const { circuit, signal } = facts;
  const { role, backwards, isWhole, actsIn } = facts.effect(shaft.id);
  if (role !== word || backwards || !isWhole) return [];
  const keyOf = ({ positions }: Setting): string => positions.join();
  const keys = new Set(actsIn.map(keyOf));
  const sounding = facts.settings().filter((setting) => !signal.sound(setting).silent);
  const acting = sounding.filter((setting) => keys.has(keyOf(setting)));
  const idle = sounding.filter((setting) => !keys.has(keyOf(setting)));
  if (idle.length === 0) return [];
  const withIt = new Set(acting.map((setting) => signal.sound(setting).text));
  const others = facts.effects().filter((other) => other.shaft !== shaft.id && other.actsIn.length > 0);
  const othersAct = new Set(others.flatMap((other) => other.actsIn.map(keyOf)));
  const isApart = (one: Setting, other: Setting): boolean =>
    one.positions.every(
      (position, device) => position === other.positions[device] || selectors.has(itemAt(circuit.switches, device).id),
    );
  return idle.filter(
    (setting) =>
      acting.some((other) => isApart(setting, other)) &&
      !withIt.has(signal.sound(setting).text) &&
      (others.length === 0 || othersAct.has(keyOf(setting))),
  );
}
