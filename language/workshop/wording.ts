/** How wires, lengths and lists are written on the sheet: short, in trade words. */
import { amount } from '../circuit/index.js';
import { leadOf } from '../circuit/model.js';
import { millimetres } from '../checks/index.js';
import { firstOf, itemAt } from '../collections.js';
import type { Build } from './build.js';
import type { Places } from './places/places.js';
import type { Run } from './places/runs.js';
import type { Item } from './plan/work.js';

/** `yellow 24 AWG`, `shielded`, `own lead, white`. */
export function wireKind(build: Build, run: Run): string {
  const { colour, gauge, bare, shielded, twisted, make = [] } = run.joint;
  const thickness = run.ownLead ? gauge : (gauge ?? build.settings.gauge);
  const size = thickness === undefined ? '' : amount(thickness, 'awg');
  const words = [
    bare ? 'bare' : (colour ?? (run.ownLead || shielded ? '' : 'any colour')),
    shielded && !run.ownLead && gauge === undefined ? '' : size,
    shielded ? 'shielded' : '',
    twisted ? 'twisted' : '',
    ...make,
  ];
  return words.filter((word) => word !== '').join(' ');
}

/** The wire off the reel that lengthens a part's own lead. */
export function spliceKind(build: Build, run: Run): string {
  const shielded = leadOf(build, run.joint)?.shielded === true;
  return wireKind(build, { ...run, ownLead: false, joint: { ...run.joint, shielded } });
}

/** Length to cut, or that it is measured in place. */
export function lengthText(runs: readonly Run[]): string {
  const length = pieceLength(runs);
  if (length === undefined) return 'measure in place';
  return `${runs.some(({ assumed }) => assumed) ? 'about ' : ''}${millimetres(length)}`;
}

/** `W5`; `W8–W11` for a bare wire of several stretches. */
export function pieceMark(runs: readonly Run[]): string {
  const marks = runs.map(({ mark }) => mark);
  const [first = ''] = marks;
  const numbers = marks.map((mark) => Number(mark.slice(1)));
  if (marks.length < 2) return first;
  const isRow = numbers.every((number, i) => i === 0 || number === itemAt(numbers, i - 1) + 1);
  return isRow ? `${first}–${marks.at(-1)}` : marks.join('+');
}

/** What a joint is called by what comes to it: the wire's number, the small part's name, or the lug that is bent. */
export function itemName({ part, label }: Places, item: Item): string {
  if (item.runs !== undefined) return pieceMark(item.runs);
  return item.part === undefined ? label(firstOf(item.joints).a) : part(item.part).name;
}

/** Length to cut of the whole piece, metres; `undefined` where a stretch is measured in place. */
export function pieceLength(runs: readonly Run[]): number | undefined {
  return runs.reduce<number | undefined>(
    (sum, { length }) => (sum === undefined || length === undefined ? undefined : sum + length),
    0,
  );
}

/** The instrument's name, with its number among those that are built alike. */
export function titleOf({ title, batch }: Build, number: number | undefined, fallback: string): string {
  const name = title ?? fallback;
  if (number === undefined || (batch < 2 && number < 2)) return name;
  return number > batch ? `${name}, instrument ${number}` : `${name}, ${number} of ${batch}`;
}
