/** Switches with two positions, of whatever kind has the poles: toggles, slides, push-pull pots, types of one's own. */
import { addPart, lug, type Draft, type Lug, type Part } from './draft.js';
import type { Role } from './names.js';

export interface Pole {
  readonly common: Lug;
  readonly throws: readonly Lug[];
}

export interface TwoWay {
  readonly part: Part;
  readonly poles: readonly Pole[];
}

/** Declares a switch to the lines that say what sounds; positions go by their name, by number, or by the type's own word. */
export function addDevice(draft: Draft, part: Part, words: readonly string[], returns = false): void {
  draft.devices.push({ part, positions: words, returns });
}

/** Names its positions, or leaves them to their numbers; returns the words by which a line refers to them. */
export function namePositions(draft: Draft, part: Part, names: readonly string[], mustName = false): readonly string[] {
  if (!mustName && draft.dice.percent(20)) return names.map((_, index) => String(index + 1));
  part.properties.push(`positions ${names.map((name) => `"${name}"`).join(' ')}`);
  return names.map((name) => `"${name}"`);
}

type Kind = 'mini-spdt' | 'slide-dpdt' | 'mini-dpdt' | 'pot-push-pull' | 'own';

/** A switch of two positions with as many poles, its frame on ground. `mustName` where the name of a position says what is meant to be silent. */
export function addTwoWay(
  draft: Draft,
  role: Role,
  poles: 1 | 2,
  names: readonly [string, string],
  options: { readonly of?: string; readonly mustName?: boolean; readonly isPot?: boolean } = {},
): TwoWay {
  const { dice } = draft;
  const many: readonly Kind[] = [
    'slide-dpdt',
    'mini-dpdt',
    'own',
    ...(options.isPot === false ? [] : (['pot-push-pull'] as const)),
  ];
  const kind = dice.pick(poles === 1 ? (['mini-spdt', ...many] as const) : many);
  draft.families.add(kind === 'own' ? 'own switch' : kind === 'pot-push-pull' ? 'push-pull' : 'mini or slide switch');
  if (kind === 'pot-push-pull') return pushPull(draft, poles, names, options.mustName ?? false);
  const type = kind === 'own' ? ownTwoWay(draft, poles) : kind;
  const part = addPart(draft, role, { type }, options.of);
  draft.metal.push(lug(part, 'frame'));
  addDevice(draft, part, namePositions(draft, part, names, options.mustName));
  return { part, poles: polesOf(part, poles) };
}

function pushPull(draft: Draft, poles: number, names: readonly [string, string], mustName: boolean): TwoWay {
  const part = addPart(draft, 'pull', { type: 'pot-push-pull', values: [draft.dice.pick(['250k', '500k']), 'audio'] });
  draft.pulls.push(part);
  draft.metal.push(lug(part, 'case'));
  const isNamed = mustName || draft.dice.percent(50);
  addDevice(draft, part, isNamed ? namePositions(draft, part, names, true) : ['down', 'up']);
  return { part, poles: polesOf(part, poles) };
}

function polesOf(part: Part, count: number): readonly Pole[] {
  return ['A', 'B'].slice(0, count).map((pole) => ({
    common: lug(part, `${pole}0`),
    throws: [lug(part, `${pole}1`), lug(part, `${pole}2`)],
  }));
}

/** A type of switch of the workshop's own, with the contacts of a slide. */
function ownTwoWay(draft: Draft, poles: 1 | 2): string {
  const name = poles === 1 ? 'push-button' : 'double-slide';
  const letters = ['A', 'B'].slice(0, poles);
  draft.types.set(
    name,
    [
      `/** ${poles === 1 ? 'A latching push button with one pole' : 'A slide with two poles'}, as bought for the workshop. */`,
      `type ${name} : switch {`,
      `  lugs ${letters.map((pole) => `${pole}0 ${pole}1 ${pole}2`).join(' ')} frame`,
      `  rows ${letters.map((pole) => `${pole}1 ${pole}0 ${pole}2`).join(' / ')}`,
      '  metal frame',
      '  positions 1 2',
      ...['1', '2'].map((at) => `  at ${at} joins ${letters.map((pole) => `${pole}0 ${pole}${at}`).join(', ')}`),
      '}',
    ].join('\n'),
  );
  return name;
}
