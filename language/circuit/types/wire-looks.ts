/** What a wire's words say of it: colour, gauge, length, bare, twisted, shielded, and how it is made. */
import type { SourceRange } from '../../source.js';
import { colours, parseColour, type Word } from '../../grammar/index.js';
import type { Problems } from '../problems.js';
import { readValue, unitPhrase, UNIT_WORDS } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { listed } from '../../words.js';
import { wireMakes, type WireLooks, type WireMake } from '../model.js';

/** A wire of which nothing is said. */
export const PLAIN_WIRE: WireLooks = { bare: false, twisted: false, shielded: false };

const WORDS = ['bare', 'twisted', 'shielded'] as const;
/** A conductor is one or the other. */
const CONDUCTORS: readonly WireMake[] = ['solid', 'stranded'];

/** Reads the words behind a wire's ends, or behind a lead's lug (`of` names which in messages); a word that is none of them is a problem that names it. */
export function readLooks(words: readonly Word[], origin: Origin, problems: Problems, of: 'wire' | 'lead'): WireLooks {
  const looks: { -readonly [K in keyof WireLooks]: WireLooks[K] } = { ...PLAIN_WIRE };
  const made = new Set<WireMake>();
  for (const word of words) {
    if (isMissing(word)) continue;
    const range = rangeOn(origin, word.range);
    const twice = (what: string): void =>
      problems.add('property', range, `this ${of} already has a ${what}; ${word.text} is a second one`);
    const colour = word.kind === 'name' ? parseColour(word.text)?.name : undefined;
    const flag = WORDS.find((name) => word.kind === 'name' && word.text === name);
    const make = wireMakes.find((name) => word.kind === 'name' && word.text === name);
    if (flag !== undefined) {
      looks[flag] = true;
    } else if (make !== undefined) {
      const other = CONDUCTORS.find((name) => CONDUCTORS.includes(make) && name !== make && made.has(name));
      if (other === undefined) made.add(make);
      else problems.add('property', range, `this ${of} is already ${other}; a conductor is solid or stranded`);
    } else if (colour !== undefined) {
      if (looks.colour !== undefined) twice('colour');
      else {
        looks.colour = colour;
        looks.colourRange = range;
      }
    } else {
      const reading = readValue(word);
      if (reading?.unit === 'awg') {
        if (looks.gauge !== undefined) twice('gauge');
        else looks.gauge = reading.value;
      } else if (reading?.unit === 'metre') {
        if (looks.length !== undefined) twice('length');
        else looks.length = reading.value;
      } else if (reading !== undefined && word.kind === 'value') {
        const what = UNIT_WORDS[reading.unit].name;
        problems.add('value', range, `${word.text} is ${what}; a ${of} takes ${unitPhrase('awg')} and ${unitPhrase('metre')}`);
      } else {
        noneOfThem(word, range, problems, of);
      }
    }
  }
  if (made.size > 0) looks.make = wireMakes.filter((name) => made.has(name));
  return looks;
}

function noneOfThem(word: Word, range: SourceRange, problems: Problems, of: string): void {
  const message = `\`${word.text}\` does not fit here; a ${of} takes a colour, a gauge, a length, ${listed([...WORDS, ...wireMakes], 'or')}`;
  problems.addMeant('property', range, message, word.text, [...colours.map((colour) => colour.name), ...WORDS, ...wireMakes]);
}
