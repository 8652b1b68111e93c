/** What the readings of a circuit suspect, by the ids of a drawing. */
import type { Circuit } from '../../../language/circuit/index.js';
import type { Located } from '../../../language/intent/index.js';
import type { DrawnSearch, DrawnSuspect } from '../../protocol.js';

/** Beyond these nobody looks; the search itself tells them all. */
const mostShown = 5;

/** The likeliest suspects, and the reading to take next. */
export function drawnSearch(circuit: Circuit, located: Located): DrawnSearch {
  const { next } = located;
  return {
    suspects: drawnSuspects(circuit, located),
    ...(next === undefined ? {} : { next: { line: next.line, where: next.where } }),
  };
}

/** The likeliest suspects, each with the lugs, parts and wires that it names. */
function drawnSuspects(circuit: Circuit, { suspects }: Located): DrawnSuspect[] {
  const lugs = new Set(circuit.lugs.map(({ label }) => label));
  const parts = new Set(circuit.parts.map(({ name }) => name));
  return suspects.slice(0, mostShown).map(({ fault: { says, where } }) => {
    const words = where.split(/[\s,]+/);
    const named = words.filter((word) => lugs.has(word));
    const wires = named.flatMap((from) => named.filter((to) => from < to).map((to) => `wire:${from}~${to}`));
    const ids = [
      ...wires,
      ...named.map((lug) => `lug:${lug}`),
      ...words.filter((word) => parts.has(word)).map((part) => `part:${part}`),
    ];
    return { says: `${says}: ${where}`, ids: [...new Set(ids)] };
  });
}
