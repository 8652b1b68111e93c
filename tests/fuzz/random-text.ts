/** Random texts from a seed: noise, word salad, and circuits with something wrong in them, mostly of a few lines so that very many can be tried. */
import { readdirSync, readFileSync } from 'node:fs';
import { bodyWords, claimWords, joiningWords, statementWords } from '../../language/grammar/index.js';
import { libraryTrees } from '../../language/circuit/index.js';
import { createDice, type Dice } from '../electrics/random-circuit.js';

const types = libraryTrees().flatMap((tree) =>
  tree.statements.flatMap((statement) => (statement.kind === 'type' ? [statement.name.text] : [])),
);
const words = [...statementWords, ...bodyWords, ...joiningWords, ...claimWords, ...types];
const values = [
  '6.2k',
  '4k7',
  '.022u',
  '22nF',
  '2.4H',
  '85mm',
  '22awg',
  '9V',
  '15%',
  '?',
  '0',
  '-1',
  '1e309',
  '9'.repeat(40),
  'A250K',
];
const signs = ['{', '}', '(', ')', ',', ':', '.', '/', '|', '"', '\\', '//', '/*', '*/', '/**', '\n', '\r\n', '\t', ' ', '  '];
const odd = [
  '\0',
  '\u2028',
  '\uD800',
  '\uFEFF',
  '\u202E',
  '\u{1F3B8}',
  '<script>',
  '&amp;',
  '=1+1',
  '%2e%2e/',
  'Ω',
  'µ',
  'ñ',
  '../',
  '`',
  '${x}',
];

const folder = 'examples';
const circuits = readdirSync(folder).flatMap((name) =>
  name.endsWith('.lug') ? [readFileSync(`${folder}/${name}`, 'utf8')] : [],
);
/** Statements of whole circuits, by which small texts are put together. */
const statements = circuits.flatMap((text) => text.split(/\n(?=\S)/)).filter((text) => text.trim() !== '');

export function randomText(seed: number): string {
  const dice = createDice(seed);
  const roll = dice.next();
  if (roll < 0.05)
    return some(dice, 200, () => String.fromCharCode(Math.floor(dice.next() * (dice.chance(0.8) ? 128 : 65536)))).join('');
  if (roll < 0.15) return some(dice, 60, () => word(dice)).join(dice.pick([' ', '', '\n']));
  let text = roll < 0.17 ? dice.pick(circuits) : some(dice, 14, () => dice.pick(statements)).join('\n');
  for (let times = Math.floor(dice.next() * 5); times > 0; times--) text = mutated(dice, text);
  return text;
}

function word(dice: Dice): string {
  return dice.pick(dice.pick([words, words, values, signs, odd]));
}

function some<T>(dice: Dice, most: number, make: () => T): T[] {
  return Array.from({ length: Math.floor(dice.next() * most) + 1 }, make);
}

function mutated(dice: Dice, text: string): string {
  const at = Math.floor(dice.next() * (text.length + 1));
  const lines = text.split('\n');
  const line = Math.floor(dice.next() * lines.length);
  switch (Math.floor(dice.next() * 9)) {
    case 0:
      return text.slice(0, at) + text.slice(at + 1 + Math.floor(dice.next() * 8));
    case 1:
      return text.slice(0, at) + word(dice) + text.slice(at);
    case 2:
      return text.slice(0, at);
    case 3:
      return [...lines.slice(0, line), lines[line]!, lines[line]!, ...lines.slice(line + 1)].join('\n');
    case 4:
      return [...lines.slice(0, line), ...lines.slice(line + 1)].join('\n');
    case 5:
      return text.replace(/[\w.-]+/g, (found) => (dice.chance(0.03) ? word(dice) : found));
    case 6:
      return text.replace(/\d[\d.]*/g, (found) => (dice.chance(0.1) ? dice.pick(values) : found));
    case 7:
      return (
        text.slice(0, at) +
        dice.pick(['{', '(', ' x', '\n', '/*', '"', '.a', ' to ']).repeat(Math.floor(dice.next() * 300)) +
        text.slice(at)
      );
    default:
      return text.replace(/[\w-]+\.[\w-]+/g, (found) =>
        dice.chance(0.1) ? dice.pick(['x.y', 'output.tip', 'volume.2', 'star']) : found,
      );
  }
}
