/** Finds what a dotted name stands for: a part, a lug of it, a coil of it. */
import type { DottedName, Word } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import { recordUse, report, reportMisspelling, type Lowering, type Naming, type NamedItem } from './lowering-state.js';
import { canonicalLug, type Instance } from './builder.js';
import { lugDefinition } from './instantiate.js';
import { leftIsFirst, lugNames, onlyLug, requiredLugs } from '../types/lug-names.js';
import type { LugId } from '../model.js';
import { nameList } from '../phrases.js';
import { replaceWith } from '../problems.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';

export interface FoundLug {
  readonly lug: LugId;
  readonly range: SourceRange;
}

/** A part reached by the first words of a name, and the words left over. */
export interface FoundPart {
  readonly instance: Instance;
  readonly rest: readonly Word[];
}

/** The thing of that name; tells where there is none. `wanted` limits what is offered instead. */
export function itemNamed(state: Naming, word: Word, origin: Origin, wanted?: NamedItem['kind']): NamedItem | undefined {
  if (isMissing(word)) return undefined;
  const range = rangeOn(origin, word.range);
  const item = state.namedItems.get(word.text);
  if (item !== undefined && (wanted === undefined || item.kind === wanted)) {
    const part = item.instance?.part.id;
    recordUse(state, {
      kind: item.kind,
      range,
      definition: item.nameRange,
      name: word.text,
      ...(part === undefined ? {} : { part }),
    });
    return item;
  }
  const what = wanted ?? 'part';
  const is = item === undefined ? `there is no ${what} ${word.text}` : `${word.text} is a ${item.kind}, not a ${what}`;
  reportMisspelling(state, 'unknown-name', range, is, { word: word.text, among: state.spellings.of(wanted) });
  return undefined;
}

/** The part that the first words name, those inside an assembly too (`bleed.c`). */
export function partNamed(state: Naming, path: readonly Word[], origin: Origin): FoundPart | undefined {
  const [first, ...words] = path;
  const item = first === undefined ? undefined : itemNamed(state, first, origin);
  if (first === undefined || item === undefined) return undefined;
  if (item.instance === undefined) {
    const bare = item.kind === 'cavity' ? 'a cavity without a shield' : 'a plate without metal';
    report(state, 'unknown-name', rangeOn(origin, first.range), `${first.text} is ${bare}: nothing can be soldered to it`);
    return undefined;
  }
  let instance = item.instance;
  let rest: readonly Word[] = words;
  while (rest[0] !== undefined) {
    const child = instance.children.get(rest[0].text);
    if (child === undefined || (rest.length === 1 && instance.lugs.has(rest[0].text))) break;
    const range = rangeOn(origin, rest[0].range);
    recordUse(state, { kind: 'part', range, definition: child.part.nameRange, name: rest[0].text, part: child.part.id });
    instance = child;
    rest = rest.slice(1);
  }
  return { instance, rest };
}

/** The lug that a dotted name stands for; notes the use, and tells what is wrong where there is none. */
export function lugNamedBy(state: Lowering, name: DottedName, origin: Origin): FoundLug | undefined {
  const found = partNamed(state, name.path, origin);
  if (found === undefined) return undefined;
  const { instance, rest } = found;
  const [word, more] = rest;
  const range = rangeOn(origin, name.range);
  if (word === undefined) return aloneLug(state, instance, range);
  if (isMissing(word)) return undefined;
  if (more !== undefined) {
    report(state, 'unknown-name', range, `${instance.part.name} has nothing inside called ${word.text}`);
    return undefined;
  }
  const canonical = canonicalLug(instance, word.text);
  const wordRange = rangeOn(origin, word.range);
  if (canonical.kind === 'lug') {
    const lug = state.builder.lug(instance, canonical.name);
    const definition = lugDefinition(instance, canonical.name);
    recordUse(state, {
      kind: 'lug',
      range: wordRange,
      name: word.text,
      part: instance.part.id,
      lug,
      ...(definition === undefined ? {} : { definition }),
    });
    return use(state, lug, range);
  }
  if (canonical.kind === 'unseen') reportUnseen(state, instance, word, wordRange);
  else reportNoLug(state, instance, word, wordRange);
  return undefined;
}

/** The part named alone, where it has one lug. */
function aloneLug(state: Lowering, instance: Instance, range: SourceRange): FoundLug | undefined {
  const { type, part } = instance;
  const only = type === undefined ? 'lug' : onlyLug(type);
  if (only !== undefined) return use(state, state.builder.lug(instance, only), range);
  const names = type === undefined ? [] : requiredLugs(type).map((lug) => lug.name);
  const all = names.length > 0 || type === undefined ? names : lugNames(type);
  const example = all[0] ?? '1';
  report(
    state,
    'unknown-name',
    range,
    `name a lug of ${part.name}, such as ${part.name}.${example.split(' ')[0] ?? example}: it has ${nameList(all)}`,
  );
  return undefined;
}

function use(state: Lowering, lug: LugId, range: SourceRange): FoundLug {
  state.builder.lugs[lug]?.uses.push(range);
  return { lug, range };
}

function reportNoLug(state: Lowering, instance: Instance, word: Word, range: SourceRange): void {
  const { type, part } = instance;
  if (type === undefined) return;
  const names = lugNames(type);
  const coil = instance.coils.has(word.text) ? `; ${word.text} is one of its coils, and a wire goes to a lug` : '';
  const has = names.length === 0 ? 'it has none' : `it has ${nameList(names)}`;
  const inside = instance.children.size === 0 ? '' : `, and inside it ${nameList([...instance.children.keys()])}`;
  const message = `${part.name} has no lug ${word.text}; ${has}${inside}${coil}`;
  reportMisspelling(state, 'unknown-name', range, message, { word: word.text, among: state.spellings.ofLugs(type) });
}

/** `left` before it is said how the diagram sees the pot: both readings are offered. */
function reportUnseen(state: Lowering, instance: Instance, word: Word, range: SourceRange): void {
  const { part, type, view } = instance;
  const track = type?.elements.find((element) => element.kind === 'track');
  const fixes = (['back', 'front'] as const).flatMap((seen) => {
    const first = (word.text === 'left') === leftIsFirst({ ...view, seen });
    const lug = first ? track?.a : track?.b;
    return lug === undefined ? [] : [replaceWith(range, lug, { title: `write ${lug}: ${word.text} as seen from the ${seen}` })];
  });
  const message = `${word.text} of ${part.name} depends on the side seen in the diagram: add { seen back } or { seen front } to ${part.name} or to the instrument`;
  report(state, 'property', range, message, { fixes });
}
