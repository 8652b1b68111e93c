/** hover/: what is shown about the item under the cursor, one file for each kind of item. */
import type { Position, Range } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.js';
import {
  amount,
  lugById,
  partById,
  type AnalysedCircuit,
  type Circuit,
  type NameUse,
  typesOf,
} from '../../../language/circuit/index.js';
import { isComment, parseColour, type Token } from '../../../language/grammar/index.js';
import { textIn, touches, useAt } from '../places.js';
import { toRange } from '../to-protocol.js';
import type { Steps } from '../../../language/steps.js';
import type { Snapshot } from '../workspace.js';
import { expectationHover } from './expectation.js';
import { lugHover } from './lug.js';
import { coreRows } from './core.js';
import { code, paragraphs, plain, table } from './markdown.js';
import { partHover, propertyText } from './part.js';
import { positionHover } from './position.js';
import { ruleHover } from './rule.js';
import { parameterText, typeHover } from './type.js';
import { valueHover } from './value.js';
import { wireHover } from './wire.js';

export interface HoverAnswer {
  readonly markdown: string;
  readonly range: Range;
}

/** What there is to say at a place, in steps of one solved setting each; `undefined` where there is nothing. */
export function* hoverSteps(at: Snapshot, position: Position, analysis: Analysis): Steps<HoverAnswer | undefined> {
  const { circuit, uri } = at;
  const use = useAt(circuit, uri, position);
  const named = use === undefined ? undefined : yield* aboutName(at, use, analysis);
  if (use !== undefined && named !== undefined && named !== '') return { markdown: named, range: toRange(use.range) };
  const token = at.tree.scan?.tokens.find((one) => !isComment(one) && touches(rangeOf(one), position));
  const markdown = token === undefined ? undefined : (aboutWord(token) ?? (yield* aboutStatement(at, position, token)));
  return token === undefined || markdown === undefined || markdown === '' ? undefined : { markdown, range: rangeOf(token) };
}

function* aboutName({ circuit, text }: Snapshot, use: NameUse, analysis: Analysis): Steps<string | undefined> {
  const part = use.part === undefined ? undefined : circuit.parts[use.part];
  switch (use.kind) {
    case 'part':
      return part === undefined ? undefined : yield* partHover(circuit, part, analysis);
    case 'lug': {
      const lug = use.lug === undefined ? undefined : circuit.lugs[use.lug];
      return lug === undefined ? undefined : lugHover(circuit, lug, textIn(text, use.range));
    }
    case 'type': {
      const type = typeOf(circuit, use);
      return type === undefined ? undefined : typeHover(type);
    }
    case 'position':
      return yield* aboutPosition(circuit, use, analysis);
    case 'property':
      return aboutProperty(circuit, use);
    case 'rule':
      return ruleHover(use.name);
    case 'coil':
      return aboutCoil(circuit, use, part?.name);
    case 'cavity':
      return aboutCavity(circuit, use.name);
    case 'plate':
      return aboutPlate(circuit, use.name);
    case 'file':
      return undefined;
  }
}

function aboutCoil(circuit: AnalysedCircuit, use: NameUse, partName: string | undefined): string {
  const coil = circuit.elements.find(({ kind, part: of, name }) => kind === 'coil' && of === use.part && name === use.name);
  const owner = partName === undefined ? '' : ` of ${code(partName)}`;
  if (coil?.kind !== 'coil') return `coil ${code(use.name)}${owner}`;
  const leads = [coil.a, coil.b].map((lug) => code(lugById(circuit, lug).label)).join(' to ');
  return table([
    [`coil ${code(use.name)}${owner}`, leads],
    ['resistance', propertyText(coil.resistance)],
    ['inductance', propertyText(coil.inductance)],
    ['capacitance', propertyText(coil.capacitance)],
    ...coreRows(circuit, [coil.id]),
  ]);
}

function aboutCavity(circuit: Circuit, name: string): string {
  const cavity = circuit.cavities.find((one) => one.name === name);
  const inside = circuit.parts.filter((part) => part.cavity === name).map((part) => code(part.name));
  return table([
    [`cavity ${code(name)}`, cavity?.shielded === true ? 'shielded' : ''],
    ['holds', inside.join(', ') || 'nothing'],
  ]);
}

function aboutPlate(circuit: Circuit, name: string): string {
  const plate = circuit.plates.find((one) => one.name === name);
  const carried = plate?.carries.map((id) => code(partById(circuit, id).name)) ?? [];
  const metal = plate?.metal === true ? 'metal' : plate?.shielded === true ? 'shielded' : '';
  return table([
    [`plate ${code(name)}`, metal],
    ...(plate?.size === undefined
      ? []
      : [['size', `${amount(plate.size.width, 'metre')} × ${amount(plate.size.height, 'metre')}`] as [string, string]]),
    ['carries', carried.join(', ') || 'nothing'],
  ]);
}

function typeOf(circuit: Circuit, { name }: NameUse) {
  return typesOf(circuit).find((type) => type.name === name);
}

/** A position in a setting or in a part's braces belongs to that part; in a type's body it is only a name. */
function* aboutPosition(circuit: AnalysedCircuit, use: NameUse, analysis: Analysis): Steps<string | undefined> {
  const device = circuit.switches.find(({ part }) => part === use.part);
  if (device === undefined) return undefined;
  const number = /^\d+$/.test(use.name) ? Number(use.name) - 1 : -1;
  const named = device.positions.findIndex(({ label, key }) => label === use.name || key === use.name);
  return yield* positionHover(circuit, device, named >= 0 ? named : number, analysis);
}

function aboutProperty(circuit: Circuit, use: NameUse): string | undefined {
  // The part whose statement holds the word tells which type is meant.
  const part = circuit.parts.find(({ range }) => range.uri === use.range.uri && touches(range, use.range.start));
  const types = typesOf(circuit);
  const type =
    types.find(({ name }) => name === part?.type) ??
    types.find(({ range }) => range.uri === use.range.uri && touches(range, use.range.start));
  const parameter = type?.parameters.find(({ name }) => name === use.name);
  if (type === undefined || parameter === undefined) return undefined;
  const property = part?.properties[use.name];
  return paragraphs(
    table([
      [code(use.name), `of ${code(type.name)}`],
      ['takes', parameterText(parameter)],
      ['here', property === undefined ? undefined : propertyText(property)],
    ]),
    parameter.doc === undefined ? undefined : plain(parameter.doc),
  );
}

function aboutWord(token: Token): string | undefined {
  if (token.kind === 'value') return valueHover(token.image);
  if (token.kind !== 'word') return undefined;
  const colour = parseColour(token.image);
  if (colour !== undefined) {
    return table([
      [code(token.image), 'colour'],
      ['IEC 60757', code(colour.colours.map((one) => one.code).join(''))],
    ]);
  }
  return /\d/.test(token.image) ? valueHover(token.image) : undefined;
}

/** On a statement's own words: the wire, the expectation. */
function* aboutStatement({ circuit, uri, text }: Snapshot, position: Position, token: Token): Steps<string | undefined> {
  if (token.kind !== 'word' && token.kind !== 'sign') return undefined;
  const runs = circuit.joints.filter(
    ({ kind, statementRange }) =>
      (kind === 'wire' || kind === 'solder') && statementRange.uri === uri && touches(statementRange, position),
  );
  const here = runs.filter(({ aRange, bRange }) => touches({ start: aRange.end, end: bRange.start }, position));
  // A part in place is joined by its own statement; there the part is what is asked about.
  if (runs.length > 0 && !circuit.parts.some(({ inPlace, range }) => inPlace && touches(range, position)))
    return wireHover(circuit, here.length > 0 ? here : runs);
  const expectation = circuit.expectations.find(({ range }) => range.uri === uri && touches(range, position));
  return expectation === undefined ? undefined : yield* expectationHover(circuit, expectation, text);
}

function rangeOf({ line, character, endLine, endCharacter }: Token): Range {
  return { start: { line, character }, end: { line: endLine, character: endCharacter } };
}
