/** Renames parts, types, cavities, plates, and the lugs, coils, parameters and positions of one's own types and switches, in all files. */
import { ErrorCodes, LSPErrorCodes, ResponseError, type Range, type TextEdit } from 'vscode-languageserver';
import { type Circuit, type NameUse, typesOf } from '../../../language/circuit/index.js';
import type { SourceRange } from '../../../language/source.js';
import { isBuiltIn } from '../texts/built-ins.js';
import { mentionsOf } from '../mentions.js';
import { definitionOf, textIn, touches, useAt } from '../places.js';
import { toRange } from '../to-protocol.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const rename: Feature = {
  capabilities: { renameProvider: { prepareProvider: true } },
  register(service) {
    service.connection.onPrepareRename(
      onDocument(service, 'prepareRename', null, (at, { position }) => {
        const use = useAt(at.circuit, at.uri, position);
        if (use === undefined) return null;
        refuse(at.circuit, use);
        const written = textIn(at.text, use.range);
        return { range: withoutQuotes(toRange(use.range), written), placeholder: unquoted(written) };
      }),
    );
    service.connection.onRenameRequest(
      onDocument(service, 'rename', null, async (at, { position, newName }) => {
        const snapshots = [...(await service.workspace.snapshots()), at];
        const found = mentionsOf(at, position, snapshots);
        if (found === undefined) return null;
        const { use, mentions, sharing } = found;
        refuse(at.circuit, use);
        const old = unquoted(textIn(at.text, use.range));
        const name = unquoted(newName.trim());
        // A file that never mentions it may have something else of that name.
        for (const { circuit } of sharing) refuseTaken(circuit, use, name, old);
        const changes: Record<string, TextEdit[]> = {};
        for (const { range } of mentions) {
          const text = textIn(textOf(snapshots, range.uri), range);
          // A second name of the same thing, and a position's number, stay as they are.
          if (unquoted(text) !== old) continue;
          (changes[range.uri] ??= []).push({ range: toRange(range), newText: written(name, use, text) });
        }
        return { changes };
      }),
    );
  },
};

const renamed: ReadonlySet<NameUse['kind']> = new Set(['part', 'lug', 'type', 'coil', 'cavity', 'plate', 'position', 'property']);

/** What belongs to the language, or is no name of the text, stays. */
function refuse(circuit: Circuit, use: NameUse): void {
  const definition = definitionOf(circuit, use);
  if (!renamed.has(use.kind)) throw refusal(`A ${use.kind} can’t be renamed here.`);
  if (definition === undefined) {
    throw refusal(use.kind === 'position' ? 'Name the positions first: { positions "…" "…" }.' : `Nothing declares ${use.name}.`);
  }
  if (isBuiltIn(definition.uri)) throw refusal(`${use.name} belongs to a standard part, so it can’t be renamed.`);
}

/** Two things of one name would be one no longer. */
function refuseTaken(circuit: Circuit, use: NameUse, name: string, old: string): void {
  if (name === old) return;
  const isTaken = ((): boolean => {
    switch (use.kind) {
      case 'part':
      case 'cavity':
      case 'plate':
        return [...circuit.parts, ...circuit.cavities, ...circuit.plates].some((item) => item.name === name);
      case 'type':
        return typesOf(circuit).some((type) => type.name === name);
      case 'lug': {
        const owner = typesOf(circuit).find(({ range }) => holds(range, use.definition));
        const heirs = typesOf(circuit).filter(({ ancestry }) => owner !== undefined && ancestry.includes(owner.name));
        return heirs.some(({ lugs, optional, aliases }) => [...lugs, ...optional, ...Object.keys(aliases)].includes(name));
      }
      case 'position': {
        const isMeant = ({ range }: { range?: SourceRange }) => range !== undefined && holds(range, use.definition);
        return circuit.switches.some(({ positions }) => positions.some(isMeant) && positions.some(({ label }) => label === name));
      }
      default:
        return false;
    }
  })();
  if (isTaken) throw refusal(`There is already a ${use.kind} ${name}.`);
}

function holds(range: SourceRange, place: SourceRange | undefined): boolean {
  return range.uri === place?.uri && touches(range, place.start) && touches(range, place.end);
}

const plainName = /^[\p{L}_][\p{L}\p{M}\p{N}_]*(-[\p{L}\p{M}\p{N}_]+)*$/u;
const lugName = /^[\p{L}\p{N}_][\p{L}\p{M}\p{N}_]*(-[\p{L}\p{M}\p{N}_]+)*$/u;

/** The new name in the form in which the old one stood. */
function written(name: string, use: NameUse, old: string): string {
  if (old.startsWith('"')) return `"${name.replace(/["\\]/g, '\\$&')}"`;
  if (!(use.kind === 'lug' ? lugName : plainName).test(name)) {
    const form =
      use.kind === 'lug' ? 'letters, digits, `_` and inner hyphens' : 'letters, digits, `_` and inner hyphens, a letter first';
    throw new ResponseError(ErrorCodes.InvalidParams, `A name consists of ${form}.`);
  }
  return name;
}

function refusal(message: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, message);
}

function unquoted(text: string): string {
  return /^".*"$/.test(text) ? text.slice(1, -1).replace(/\\(["\\])/g, '$1') : text;
}

function withoutQuotes({ start, end }: Range, text: string): Range {
  if (!/^".*"$/.test(text)) return { start, end };
  return {
    start: { line: start.line, character: start.character + 1 },
    end: { line: end.line, character: end.character - 1 },
  };
}

function textOf(snapshots: readonly Snapshot[], uri: string): string {
  return snapshots.find((snapshot) => snapshot.uri === uri)?.text ?? '';
}
