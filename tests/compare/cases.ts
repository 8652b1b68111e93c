/** Edited pairs of circuits as data: an old text, an edit line by line, and the lines that a comparison must say. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { read, root } from '../harness/checkout.js';

export interface Case {
  readonly name: string;
  readonly before: string;
  readonly after: string;
  /** Lines by section; the first is the summary, under an empty name. */
  readonly expected: ReadonlyMap<string, readonly string[]>;
  /** Sections that the case does not speak of. */
  readonly aside: readonly string[];
}

const folder = 'tests/compare/cases';

export function cases(): readonly Case[] {
  return readdirSync(join(root, folder))
    .sort()
    .map((name) => readCase(name.replace('.txt', ''), read(`${folder}/${name}`)));
}

/** The circuits that the cases start from. */
export function base(name: string): string {
  return read(`tests/compare/bases/${name}.lug`);
}

function readCase(name: string, text: string): Case {
  const at = (head: string): string =>
    new RegExp(`^${head}:\\n([\\s\\S]*?)(?=^(?:before|edit|expected|aside):|(?![\\s\\S]))`, 'm').exec(text)?.[1] ?? '';
  const before = edited(base(/^base: (\w+)$/m.exec(text)![1]!), at('before'));
  return {
    name,
    before,
    after: edited(before, at('edit')),
    expected: sections(at('expected').split('\n')),
    aside: /^aside: (.*)$/m.exec(text)?.[1]!.split(', ') ?? [],
  };
}

/** Lines behind `- ` leave the text, those behind `+ ` come where the last one left, or at its end. */
export function edited(text: string, edit: string): string {
  const lines = text.split('\n');
  let at = lines.length - 1;
  for (const line of edit.split('\n').filter((one) => one !== '')) {
    const content = line.slice(2);
    if (line.startsWith('- ')) {
      at = lines.indexOf(content);
      if (at < 0) throw new Error(`no line “${content}” to take out`);
      lines.splice(at, 1);
    } else lines.splice(at++, 0, content);
  }
  return lines.join('\n');
}

/** Lines under the title of their section. */
export function sections(lines: readonly string[]): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>([['', []]]);
  let title = '';
  for (const line of lines.filter((one) => one !== '')) {
    if (line.startsWith('  ')) found.set(title, [...(found.get(title) ?? []), line.slice(2)]);
    else if (found.get('')!.length === 0) found.set('', [line]);
    else title = line;
  }
  return found;
}
