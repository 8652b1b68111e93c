/** The change as work on an instrument that is already built: what comes off first, then parts, then wires. */
import { append } from '../../collections.js';
import type { PartChange, WireChange } from '../change.js';

/** What describes a part without making it another one. */
const descriptions = ['tolerance', 'role', 'rest', 'turn', 'seen', 'lugs', 'mid', 'end'];

/** Sentences in the order of the work; what changes in looks, names or tolerances alone is none. */
export function reworkOf(parts: readonly PartChange[], wires: readonly WireChange[]): readonly string[] {
  const worked = (kind: WireChange['kind']): readonly string[] =>
    wires.flatMap((wire) => (wire.kind === kind && wire.work !== undefined ? [wire.work] : []));
  const of = (kind: PartChange['kind'], what: PartChange['what'], say: (part: PartChange) => string): readonly string[] =>
    parts.flatMap((part) => (part.kind === kind && part.what === what ? [say(part)] : []));
  return [
    ...worked('gone'),
    ...of('gone', 'part', ({ name }) => `Take out ${name}.`),
    ...replacements(parts),
    ...of('new', 'part', ({ says }) => `Fit ${says.replace(/^new part /, '')}.`),
    ...of('changed', 'place', ({ says }) => `Move ${says.replace(' becomes ', ' to ')}.`),
    ...of('changed', 'inside', ({ name }) => `Rework the connections inside ${name}.`),
    ...worked('changed'),
    ...worked('moved'),
    ...worked('new'),
  ];
}

/** A part is replaced once, whatever of it differs. Contacts that are described otherwise may be those of the switch in hand. */
function replacements(parts: readonly PartChange[]): readonly string[] {
  const [values, contacts] = [new Map<string, string[]>(), new Map<string, string[]>()];
  for (const { kind, name, what, says } of parts) {
    const text = says.slice(name.length + ': '.length);
    if (kind !== 'changed' || descriptions.some((word) => text.startsWith(`${word} `))) continue;
    if (what === 'type' || what === 'value') append(values, name, text);
    if (what === 'contacts') append(contacts, name, text);
  }
  return [
    ...[...values].map(([name, texts]) => `Replace ${name}: ${texts.join('; ')}.`),
    ...[...contacts].map(([name, texts]) => `Check ${name} with the meter, and replace it if it differs: ${texts.join('; ')}.`),
  ];
}
