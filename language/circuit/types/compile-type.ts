/** From a type's statements to a type that parts can be made of. */
import type { BodyStatement, TypeStatement } from '../../grammar/index.js';
import { baseParameters, CAPACITY, familyOf, isBase, ROLE_OF_POT_AND_SWITCH } from './bases.js';
import { readElements, type ElementNode } from './compile-elements.js';
import { readInnerJoints, readInnerPart } from './compile-inside.js';
import { declareAlias, declareLugs, markMetal, readRows } from './compile-lugs.js';
import { readContacts, readPositionNames, readRestPosition } from './compile-positions.js';
import { readTakes } from './compile-takes.js';
import { isBare, typeNamed } from './find-type.js';
import { requiredLugs } from './lug-names.js';
import type { Base } from '../model.js';
import { Problems } from '../problems.js';
import { rangeOn, type Origin } from '../ranges.js';
import type { TypeContext, TypeDraft } from './type-draft.js';
import { typeInfo } from './type-info.js';
import type { CompiledType } from './type-model.js';

/** Reads a type's body, telling all that is wrong with it; whatever can be made of it is made. */
export function compileType(statement: TypeStatement, context: TypeContext): CompiledType {
  const origin: Origin = { uri: context.uri, line: statement.line };
  const base = baseOf(statement, origin, context);
  const draft = draftFrom(statement.name.text, base ?? 'assembly');
  // Where the base isn't known, the body's names can't be either: the first line alone is in error.
  readBody(draft, statement.body, base === undefined ? { ...context, problems: new Problems() } : context);
  fitRole(draft);
  checkDrive(draft, context);
  if (draft.elements.some(({ kind }) => kind === 'battery') && !draft.parameters.has('capacity'))
    draft.parameters.set('capacity', CAPACITY);
  const range = rangeOn(origin, statement.range);
  const nameRange = rangeOn(origin, statement.name.range);
  if (base !== undefined && isBare(draft)) context.problems.add('type', nameRange, `${draft.name} has no lugs yet: lugs A B`);
  const leads = leadsOf(draft);
  const { parts, ...rest } = draft;
  const type: Omit<CompiledType, 'info'> = {
    ...rest,
    parts,
    uri: context.uri,
    range,
    nameRange,
    family: familyOf(draft.base, draft.ancestry),
    isOpen: base === undefined || (typeof base !== 'string' && base.isOpen) || isBare(draft),
    size: parts.reduce((sum, part) => sum + (part.type?.size ?? 1), 1),
    depth: 1 + parts.reduce((deepest, part) => Math.max(deepest, part.type?.depth ?? 1), 0),
    ...(leads === undefined ? {} : { leads }),
    ...(statement.doc === undefined ? {} : { doc: statement.doc }),
  };
  return { ...type, info: typeInfo(type) };
}

function baseOf(statement: TypeStatement, origin: Origin, context: TypeContext): CompiledType | Base | undefined {
  const { text } = statement.base;
  return isBase(text) ? text : typeNamed(statement.base, origin, context, statement.name.text);
}

/** Starts from all that the base type has; the body adds to it and takes the place of parts of it. */
function draftFrom(name: string, base: CompiledType | Base): TypeDraft {
  if (typeof base === 'string') {
    return {
      name,
      base,
      ancestry: [name, base],
      lugs: new Map(),
      aliases: new Map(),
      rows: [],
      parameters: new Map(baseParameters(base).map((parameter) => [parameter.name, parameter])),
      positions: [],
      elements: [],
      parts: [],
      joints: [],
    };
  }
  return {
    name,
    base: base.base,
    ancestry: [name, ...base.ancestry],
    lugs: new Map(base.lugs),
    aliases: new Map(base.aliases),
    rows: base.rows,
    parameters: new Map(base.parameters),
    positions: [...base.positions],
    elements: [...base.elements],
    parts: [...base.parts],
    joints: [...base.joints],
    ...(base.numbered === undefined ? {} : { numbered: base.numbered }),
    ...(base.rest === undefined ? {} : { rest: base.rest }),
  };
}

/** Reads what others refer to first: lugs and parameters, then elements and parts, then what joins and lays out lugs. */
function readBody(draft: TypeDraft, body: readonly BodyStatement[], context: TypeContext): void {
  const origin = (statement: BodyStatement): Origin => ({ uri: context.uri, line: statement.line });
  const lugs = new Set<string>();
  const taken = new Set<string>();
  const begun = new Set<number>();
  const elements: ElementNode[] = [];
  for (const statement of body) {
    if (statement.kind === 'lugs' || statement.kind === 'optional')
      declareLugs(draft, statement, origin(statement), lugs, context);
    else if (statement.kind === 'takes') readTakes(draft, statement, origin(statement), taken, context);
    else if (statement.kind === 'element') elements.push({ statement, origin: origin(statement) });
  }
  putOwnFirst(draft);
  readElements(draft, elements, context);
  for (const statement of body) {
    if (statement.kind === 'also') declareAlias(draft, statement, origin(statement), context);
    else if (statement.kind === 'positions') readPositionNames(draft, statement, origin(statement), context);
    else if (statement.kind === 'part') readInnerPart(draft, statement, origin(statement), context);
  }
  let number = draft.joints.reduce((most, joint) => Math.max(most, joint.statement + 1), 0);
  for (const statement of body) {
    switch (statement.kind) {
      case 'metal':
        markMetal(draft, statement, origin(statement), context);
        break;
      case 'rows':
        readRows(draft, statement, origin(statement), context);
        break;
      case 'at':
        readContacts(draft, statement, origin(statement), begun, context);
        break;
      case 'rest':
        readRestPosition(draft, statement, origin(statement), context);
        break;
      case 'part':
      case 'wire':
      case 'solder':
        readInnerJoints(draft, statement, origin(statement), number++, context);
        break;
      default:
        // The others were read above.
        break;
    }
  }
}

/** A bare value goes to the first parameter of its unit, and the type's own come before those of its base. */
function putOwnFirst(draft: TypeDraft): void {
  for (const [name, parameter] of [...draft.parameters]) {
    if (parameter.range !== undefined) continue;
    draft.parameters.delete(name);
    draft.parameters.set(name, parameter);
  }
}

/** A pot with a switch may be said to be for what either is for; a jack is a jack. */
function fitRole(draft: TypeDraft): void {
  if (draft.parameters.get('role')?.range !== undefined) return;
  if (draft.ancestry.includes('jack')) draft.parameters.delete('role');
  else if (draft.base === 'control' && draft.positions.length > 0) draft.parameters.set('role', ROLE_OF_POT_AND_SWITCH);
}

/** What a battery brings into a position needs one to come from, and goes to no third. */
function checkDrive({ name, positions, rest }: TypeDraft, context: TypeContext): void {
  const [driven, second] = positions.filter(({ drive }) => drive !== undefined);
  if (driven === undefined) return;
  if (rest === undefined || positions[rest] === driven)
    context.problems.add(
      'type',
      driven.range,
      `${name} needs a position to rest in while no current flows: rest ${positions.find((one) => one !== driven)?.name ?? 'off'}`,
    );
  if (second !== undefined)
    context.problems.add('type', second.range, `a battery brings ${name} into one position only, which is ${driven.name}`);
}

/** The two lugs that `from … to …` solders: a part of two leads has just these, besides its metal. */
function leadsOf(draft: TypeDraft): readonly [string, string] | undefined {
  if (draft.base === 'switch' || draft.base === 'control' || draft.numbered !== undefined) return undefined;
  const [a, b, ...more] = requiredLugs(draft).filter((lug) => !lug.metal);
  return a !== undefined && b !== undefined && more.length === 0 ? [a.name, b.name] : undefined;
}
