/** Tables of the standard parts, from the library's own text: lugs, parameters and positions of each type, with its doc comment. */
import { lastOf } from '../../language/collections.js';
import { parseText, type BodyStatement, type TypeStatement, type Word } from '../../language/grammar/index.js';
import { libraryText, libraryUris } from '../../language/parts/index.js';

/** One heading and table for each file of the library. */
export function partTables(): string {
  const types = new Map<string, TypeStatement>();
  const files = libraryUris.map((uri) => {
    const declared = parseText(uri, libraryText(uri) ?? '').statements.filter((statement) => statement.kind === 'type');
    for (const type of declared) types.set(type.name.text, type);
    return { name: lastOf(uri.split('/')), declared };
  });
  return files
    .map(({ name, declared }) => `### ${heading(name)}\n\n${table(declared, types)}\nIn [\`${name}\`](parts/${name}).`)
    .join('\n\n');
}

function heading(file: string): string {
  const name = file.replace('.lug', '');
  return name.charAt(0).toUpperCase() + name.slice(1);
}

function table(declared: readonly TypeStatement[], types: ReadonlyMap<string, TypeStatement>): string {
  const rows = declared.map((type) => {
    const body = inherited(type, types);
    const [lugs, more] = [lugNames(body, 'lugs'), lugNames(body, 'optional')];
    const lugCell = [lugs.join(' '), more && more.length > 0 ? `optional: ${more.join(' ')}` : ''].filter(Boolean).join('; ');
    return `| \`${type.name.text}\` | ${lugCell} | ${cell([positions(body), parameters(body)])} | ${oneLine(type.doc ?? '')} |`;
  });
  return [
    '| type | lugs | positions; parameters with their defaults | description |',
    '| --- | --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
}

/** The type's statements after those of the types it builds on; what it says anew replaces what they say. */
function inherited(type: TypeStatement, types: ReadonlyMap<string, TypeStatement>): readonly BodyStatement[] {
  const base = types.get(type.base.text);
  if (!base) return type.body;
  const says = (kind: BodyStatement['kind']) => type.body.some((statement) => statement.kind === kind);
  const kept = inherited(base, types).filter(
    ({ kind }) => !((kind === 'positions' || kind === 'at' || kind === 'rest') && says(kind)),
  );
  return [...kept, ...type.body];
}

function lugNames(body: readonly BodyStatement[], kind: 'lugs' | 'optional'): string[] {
  const names = body.flatMap((statement) =>
    statement.kind === kind ? [...statement.names.map(text), ...(statement.upTo ? ['…', statement.upTo.text] : [])] : [],
  );
  return [...new Set(names)].map((name) => (name === '…' ? name : `\`${name}\``));
}

function positions(body: readonly BodyStatement[]): string {
  const order = body.flatMap((statement) => (statement.kind === 'positions' ? statement.names.map(text) : []));
  const rest = body.find((statement) => statement.kind === 'rest')?.position.text;
  return order
    .map((name) => {
      const at = body.find((statement) => statement.kind === 'at' && statement.position.text === name);
      const joins = at?.kind === 'at' ? at.joins.map((group) => group.map(text).join(' ')).join(', ') : 'joins nothing';
      const where = at?.kind === 'at' && at.where !== undefined ? ` (where ${at.where.text})` : '';
      return `${name}${where}${name === rest ? ' (rests)' : ''}: ${joins}`;
    })
    .join('; ');
}

function parameters(body: readonly BodyStatement[]): string {
  const byName = new Map<string, string>();
  for (const statement of body) {
    if (statement.kind !== 'takes') continue;
    for (const { name, value, choices } of statement.parameters)
      byName.set(name.text, [name.text, value?.text ?? choices.map(text).join('/')].filter(Boolean).join(' '));
  }
  return [...byName.values()].join(', ');
}

function cell(parts: readonly string[]): string {
  return parts.filter(Boolean).join('<br>').replaceAll('|', '\\|');
}

function oneLine(doc: string): string {
  return doc.replace(/\s+/g, ' ').replaceAll('|', '\\|').trim();
}

function text(word: Word): string {
  return word.text;
}
