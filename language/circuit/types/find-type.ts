/** Looks a type up by the word that names it, notes the mention, and tells where there is none. */
import type { Word } from '../../grammar/index.js';
import { isBase } from './bases.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import type { TypeContext } from './type-draft.js';
import type { CompiledType } from './type-model.js';

/** The type that a word names; `undefined` after a problem was reported. `within` is the type in whose body or first line the word stands. */
export function typeNamed(word: Word, origin: Origin, context: TypeContext, within?: string): CompiledType | undefined {
  // A type that isn't written yet was reported by the parser.
  if (isMissing(word) || word.kind === 'unknown') return undefined;
  const range = rangeOn(origin, word.range);
  const found = context.find(word.text);
  if (typeof found !== 'string') {
    context.names.push({ kind: 'type', range, definition: found.nameRange, isDefinition: false, name: word.text });
    return found;
  }
  if (found === 'circle') {
    context.problems.add('type', range, `${within ?? word.text} contains itself through ${word.text}`, {
      why: 'A type may be based on other types and contain parts of them, but it can’t be based on itself or contain itself.',
    });
  } else if (found === 'deep') {
    context.problems.add(
      'type',
      range,
      `types are based on each other too deep here: ${word.text} is at the end of a long chain`,
    );
  } else if (isBase(word.text)) {
    context.problems.add(
      'unknown-name',
      range,
      `${word.text} is a base for types, not a type of part: name a type, such as resistor or pot`,
    );
  } else {
    context.problems.addMeant('unknown-name', range, `there is no type ${word.text}`, word.text, context.typeNames());
  }
  return undefined;
}

/** The type, where it says what lugs it has; parts of one that doesn't are taken as of unknown type, so that its own line alone is in error. */
export function wirable(type: CompiledType | undefined): CompiledType | undefined {
  return type?.isOpen === true ? undefined : type;
}

/** True for a type with neither lugs nor parts inside. */
export function isBare(type: Pick<CompiledType, 'lugs' | 'numbered' | 'parts'>): boolean {
  return type.lugs.size === 0 && type.numbered === undefined && type.parts.length === 0;
}
