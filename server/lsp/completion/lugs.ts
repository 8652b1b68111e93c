/** Parts and their lugs, those that are still free first. */
import { CompletionItemKind } from 'vscode-languageserver';
import { type Circuit, lugById, type Part, partById, type TypeInfo, typesOf } from '../../../language/circuit/index.js';
import { isSign, type Token } from '../../../language/grammar/index.js';
import { rolesOfPart } from '../../../language/roles/index.js';
import { completionKindOf } from '../symbol-kinds.js';
import type { CompletionContext, Offer } from './item.js';

/** Free lugs of all parts are offered by their full names where they are not too many. */
const mostFree = 60;

/** What an end of a wire may be: behind a dot the lugs of the part before it, else parts and free lugs; in a type's body its own lugs too. */
export function endOffers(asked: CompletionContext): Offer[] {
  const owner = ownerOf(asked.before);
  if (owner !== undefined) return lugsOf(asked, owner);
  if (asked.scope === 'type') return [...ownLugs(asked), ...innerParts(asked)];
  const { circuit } = asked.at;
  const parts = partOffers(circuit, () => true);
  const free = circuit.lugs.filter(
    (lug) =>
      lug.uses.length === 0 && lug.inner !== true && lug.label.includes('.') && isOuter(circuit, partById(circuit, lug.part)),
  );
  const given = lugsGiven(asked.before);
  const lugs = free
    .filter(({ label }) => !given.has(label))
    .slice(0, mostFree)
    .map((lug): Offer => ({ label: lug.label, kind: CompletionItemKind.Field, detail: 'free', rank: 6 }));
  return [...parts, ...lugs];
}

/** Lugs that the statement names so far, as they are written: none of them is a second end. */
function lugsGiven(before: readonly Token[]): ReadonlySet<string> {
  return new Set(
    before.flatMap(({ image }, i) => (i > 1 && isSign(before[i - 1], '.') ? [`${before[i - 2]?.image ?? ''}.${image}`] : [])),
  );
}

/** The word before the dot that is being typed behind. */
export function ownerOf(before: readonly Token[]): string | undefined {
  const last = before[before.length - 1];
  return isSign(last, '.') ? before[before.length - 2]?.image : undefined;
}

/** Parts of the instrument by name; what stands inside an assembly is not named from outside. */
export function partOffers(circuit: Circuit, isWanted: (part: Part) => boolean, rank = 4): Offer[] {
  return circuit.parts
    .filter((part) => isOuter(circuit, part) && isWanted(part))
    .map((part) => ({
      label: part.name,
      kind: completionKindOf(part.family),
      detail: part.type,
      rank,
      commits: part.lugs.length > 1 ? ['.'] : [],
    }));
}

function isOuter(circuit: Circuit, part: Part): boolean {
  return part.parent === undefined && part.family !== 'screen';
}

/** Lugs of one part, free ones first, with what they are. */
export function lugsOf(asked: CompletionContext, owner: string): Offer[] {
  const { circuit } = asked.at;
  const part = asked.scope === 'file' ? circuit.parts.find(({ name }) => name === owner) : undefined;
  const typeName = part?.type ?? (asked.scope === 'type' ? innerTypeOf(asked, owner) : undefined);
  const type = typesOf(circuit).find(({ name }) => name === typeName);
  if (type === undefined)
    return (part?.lugs ?? []).map((id): Offer => ({ label: lugById(circuit, id).name, kind: CompletionItemKind.Field }));
  const used = new Map(part?.lugs.map((id) => [lugById(circuit, id).name, lugById(circuit, id).uses.length] as const) ?? []);
  const purposes = new Map(part === undefined ? [] : rolesOfPart(circuit, part.id).flatMap(({ lugs }) => [...lugs]));
  const purposeOf = (name: string): string => {
    const lug = part?.lugs.find((id) => lugById(circuit, id).name === name);
    return (lug === undefined ? undefined : purposes.get(lug)) ?? '';
  };
  const positions = circuit.switches.find((device) => device.part === part?.id)?.positions.map(({ label }) => label);
  const sides = part !== undefined && circuit.seen === 'back' ? ['left', 'middle', 'right'] : [];
  const numbered = type.numbered === undefined ? [] : nextNumbers(type.numbered, used);
  const given = lugsGiven(asked.before);
  const names = [...type.lugs, ...type.optional.filter((name) => !numbered.includes(name)), ...numbered].filter(
    (name) => !given.has(`${owner}.${name}`),
  );
  return [
    ...names.map((name): Offer => {
      const uses = used.get(name) ?? 0;
      return {
        label: name,
        kind: CompletionItemKind.Field,
        detail: lugDetail(type, name, uses, purposeOf(name), positions),
        rank: uses > 0 ? 5 : type.optional.includes(name) ? 4 : 3,
      };
    }),
    ...(type.family === 'control' && type.shafts.length <= 1 ? sides : []).map((label): Offer => ({
      label,
      kind: CompletionItemKind.Field,
      detail: 'as seen in the diagram',
      rank: 6,
    })),
  ];
}

function lugDetail(type: TypeInfo, name: string, uses: number, purpose: string, positions?: readonly string[]): string {
  const what = [
    purpose,
    type.metal.includes(name) ? 'metal' : '',
    type.optional.includes(name) ? 'optional' : '',
    leadsOf(type, name, positions),
  ];
  const joined = ['free', 'joined once', 'joined twice'][uses] ?? `joined ${uses} times`;
  return [...what, joined].filter((one) => one !== '').join(', ');
}

/** The numbers in use and the next one. */
function nextNumbers({ from, to }: { readonly from: number; readonly to: number }, used: ReadonlyMap<string, number>): string[] {
  const numbers = [...used.keys()].map(Number).filter((number) => number >= from && number <= to);
  const next = Math.max(from - 1, ...numbers) + 1;
  return [...numbers, ...(next <= to ? [next] : [])].map(String);
}

/** The lugs of the type whose body is being written, as far as they are declared. */
export function ownLugs(asked: CompletionContext): Offer[] {
  const statement = asked.at.tree.statements.find((one) => one.kind === 'type' && one.line === asked.type?.line);
  if (statement?.kind !== 'type') return [];
  const declared = statement.body.flatMap((one) =>
    one.kind === 'lugs' || one.kind === 'optional' ? one.names.map(({ text }) => text) : [],
  );
  const inherited = typesOf(asked.at.circuit).find(({ name }) => name === asked.type?.base);
  const names = new Set([...declared, ...(inherited?.lugs ?? []), ...(inherited?.optional ?? [])]);
  return [...names]
    .filter((name) => name !== '')
    .map((label) => ({ label, kind: CompletionItemKind.Field, detail: `lug of ${asked.type?.name ?? ''}`, rank: 3 }));
}

function innerParts(asked: CompletionContext): Offer[] {
  return bodyParts(asked).map(({ name, type }) => ({
    label: name,
    kind: CompletionItemKind.Variable,
    detail: type,
    rank: 4,
    commits: ['.'],
  }));
}

function innerTypeOf(asked: CompletionContext, owner: string): string | undefined {
  return bodyParts(asked).find(({ name }) => name === owner)?.type;
}

function bodyParts(asked: CompletionContext): { readonly name: string; readonly type: string }[] {
  const statement = asked.at.tree.statements.find((one) => one.kind === 'type' && one.line === asked.type?.line);
  if (statement?.kind !== 'type') return [];
  return statement.body.flatMap((one) =>
    one.kind === 'part' ? one.names.map(({ text }) => ({ name: text, type: one.type.text })) : [],
  );
}

/** `at bridge, both` or `in every position`; nothing where it is never joined. `positions` are the names that the text gives, in the type's order. */
export function leadsOf(
  type: TypeInfo,
  lug: string,
  positions: readonly string[] = type.positions.map(({ name }) => name),
): string {
  const met = type.positions.map(({ joins }) => joins.find((group) => group.includes(lug)));
  const groups = met.filter((group) => group !== undefined);
  if (groups.length === 0 || type.positions.length < 2) return '';
  const at = positions.filter((_, i) => met[i] !== undefined);
  return at.length === type.positions.length ? 'in every position' : `at ${at.join(', ')}`;
}
