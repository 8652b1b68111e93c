/** Which lug of a type a word names: its own lugs, second names, numbered lugs, and left, middle and right of a pot. */
import { firstOf, groupBy } from '../../collections.js';
import { createSpelling } from '../../nearest.js';
import type { CompiledType, LugDefinition, View } from './type-model.js';

/** The part of a type that its lugs are looked up in. */
export type LugSpace = Pick<CompiledType, 'lugs' | 'aliases' | 'numbered' | 'elements'>;

/** What a word turned out to name. `unseen` is a side of a pot before anything is said of how the diagram sees it. */
export type LugNamed = { readonly kind: 'lug'; readonly name: string } | { readonly kind: 'unseen' } | { readonly kind: 'none' };

/** The lug that `word` names on a part of this type, seen in this view. */
export function lugNamed(type: LugSpace, word: string, view: View): LugNamed {
  const own = ownLug(type, word);
  if (own !== undefined) return { kind: 'lug', name: own };
  const sides = potSides(type);
  if (sides === undefined || (word !== 'left' && word !== 'middle' && word !== 'right')) return { kind: 'none' };
  if (word === 'middle') return { kind: 'lug', name: sides.wiper };
  if (view.seen === undefined) return { kind: 'unseen' };
  return { kind: 'lug', name: (word === 'left') === leftIsFirst(view) ? sides.first : sides.last };
}

/** Shaft towards you and lugs down, 1 stands left. Seen from the back the order is mirrored; turned so that the lugs point up, mirrored again. */
export function leftIsFirst(view: View): boolean {
  return (view.seen !== 'back') === (view.lugs !== 'up');
}

/** The lugs that a part of this type surely has: neither optional nor a point inside. */
export function requiredLugs(type: LugSpace): readonly LugDefinition[] {
  return [...type.lugs.values()].filter((lug) => !lug.optional && !lug.inner);
}

/** The lug that is meant where the part is named alone. */
export function onlyLug(type: LugSpace): string | undefined {
  const lugs = requiredLugs(type);
  return lugs.length === 1 ? firstOf(lugs).name : undefined;
}

/** The names that a message lists: lugs in their order, optional ones behind. */
export function lugNames(type: LugSpace): readonly string[] {
  const lugs = [...type.lugs.values()].filter((lug) => !lug.inner);
  const names = [...lugs.filter((lug) => !lug.optional), ...lugs.filter((lug) => lug.optional)].map((lug) => lug.name);
  return type.numbered === undefined ? names : [...names, `${type.numbered.from} to ${type.numbered.to}`];
}

/** The lugs of a type, for words that may have been meant for one of them. */
export interface LugSpelling {
  /** The same letters with the nearest number (`A4` on a switch with A0 to A3), else the nearest name. */
  nearest(word: string): string | undefined;
  /** The only name one edit away; of numbers none, since each is as near as the next. */
  oneEditAway(word: string): string | undefined;
}

export function createLugSpelling(type: LugSpace): LugSpelling {
  const names = [...type.lugs.values()].flatMap((lug) => (lug.inner ? [] : [lug.name]));
  const numbered = groupBy(
    names.flatMap((name) => numberedName(name) ?? []),
    ({ letters }) => letters,
  );
  const spelling = createSpelling();
  for (const name of [...names, ...type.aliases.keys()]) spelling.add(name);
  return {
    nearest(word) {
      const asked = numberedName(word);
      if (asked === undefined) return spelling.nearest(word);
      let best: string | undefined;
      let least = Infinity;
      for (const { name, number } of numbered.get(asked.letters) ?? []) {
        const away = Math.abs(number - asked.number);
        if (away < least) [best, least] = [name, away];
      }
      return best ?? spelling.nearest(word);
    },
    oneEditAway: (word) => (numberedName(word) === undefined ? spelling.oneEditAway(word) : undefined),
  };
}

/** A name with one number in it. */
interface NumberedName {
  readonly name: string;
  /** The letters around the number, whatever their case. */
  readonly letters: string;
  readonly number: number;
}

function numberedName(name: string): NumberedName | undefined {
  const [whole, before, number, behind] = /^(\D*)(\d{1,6})(\D*)$/.exec(name) ?? [];
  return whole === undefined ? undefined : { name, letters: `${before} ${behind}`.toLowerCase(), number: Number(number) };
}

/** True where the type has one track, so that the lugs of its ends may be called left and right. */
export function hasSides(type: LugSpace): boolean {
  return potSides(type) !== undefined;
}

function ownLug(type: LugSpace, word: string): string | undefined {
  const definition = type.lugs.get(word);
  if (definition !== undefined) return definition.inner ? undefined : word;
  const alias = type.aliases.get(word);
  if (alias !== undefined && type.lugs.get(alias)?.inner === false) return alias;
  if (type.numbered !== undefined && /^[1-9]\d{0,5}$/.test(word)) {
    const number = Number(word);
    if (number >= type.numbered.from && number <= type.numbered.to) return word;
  }
  return undefined;
}

function potSides(type: LugSpace): { first: string; wiper: string; last: string } | undefined {
  const tracks = type.elements.filter((element) => element.kind === 'track');
  const track = tracks[0];
  if (tracks.length !== 1 || track?.wiper === undefined) return undefined;
  return { first: track.a, wiper: track.wiper, last: track.b };
}
