/** Hover on a type: what it is, its lugs, its positions, what it takes. */
import type { ParameterInfo, TypeInfo } from '../../../language/circuit/index.js';
import { quantityText } from './figures.js';
import { code, codes, paragraphs, plain, table } from './markdown.js';

export function typeHover(type: TypeInfo): string {
  const { name, base, ancestry, lugs, optional, metal, numbered, leads, coils, shafts, parameters, positions } = type;
  const from = ancestry.slice(1).map(code).join(' → ');
  const facts: [string, string | undefined][] = [
    [code(name), from === '' ? code(base) : from],
    ['lugs', lugs.length === 0 ? undefined : codes(lugs, 30)],
    ['optional', optional.length === 0 ? undefined : codes(optional)],
    ['numbered', numbered === undefined ? undefined : `${numbered.from} to ${numbered.to}, those that are named`],
    ['metal', metal.length === 0 ? undefined : codes(metal)],
    ['leads', leads === undefined ? undefined : `from ${code(leads[0])} to ${code(leads[1])}`],
    ['coils', coils.length < 2 ? undefined : codes(coils)],
    ['shafts', shafts.length < 2 ? undefined : codes(shafts)],
  ];
  const contacts = positions.map((position) => [
    position.where === undefined ? code(position.name) : `${code(position.name)}, where ${code(position.where)}`,
    position.joins.length === 0 ? 'joins nothing' : position.joins.map((group) => codes(group)).join('; '),
  ]);
  const taken = parameters.map((parameter) => [code(parameter.name), parameterText(parameter), plain(parameter.doc ?? '')]);
  return paragraphs(
    type.doc === undefined ? undefined : plain(type.doc),
    table(facts),
    contacts.length === 0 ? undefined : table([['position', 'joins'], ...contacts]),
    taken.length === 0 ? undefined : table([['takes', '', ''], ...taken]),
  );
}

/** `6 kΩ unless given`, `linear, audio or reverse-audio`. */
export function parameterText({ kind, value, choices, follows }: ParameterInfo): string {
  if (follows !== undefined) return `as ${code(follows)} unless given`;
  if (kind === 'value') return value === undefined ? 'a value' : `${quantityText({ ...value, tolerance: 0 })} unless given`;
  if (kind === 'choice') return choices.map((choice, i) => (i === 0 ? `**${choice}**` : choice)).join(', ');
  return 'yes or no';
}
