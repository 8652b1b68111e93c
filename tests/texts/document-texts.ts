/** Finds the sentences of everything readable that is not TypeScript: documents, the manifest, schema, and comments of the standard parts and of the grammar. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../harness/checkout.js';
import type { UserText } from './source-texts.js';

/** The documents that ship or that a visitor of the project reads. */
const documents = /^([A-Z]+\.md|(server|extension)\/(README|walkthrough\/.*)\.md|language\/(reference.*|checks\/rules\/.*)\.md)$/;
const data = /^(package(\.nls)?\.json|extension\/l10n\/.*\.json|language\/circuit\/circuit\.schema\.json)$/;
const parts = /^language\/parts\/[^/]+\.lug$/;
const grammar = /^language\/grammar\/[^/]+\.langium$/;
/** Marks of the grammar's comments whose text is a sentence; the others are followed by code or by nothing. */
const sentenceMarks = new Set(['needs', 'more']);
/** Keys of JSON whose value is a name for a program. */
const namesOfPrograms = new Set([
  'when',
  'command',
  'enablement',
  'regexp',
  'body',
  'scripts',
  'media',
  'completionEvents',
  'pattern',
  '$ref',
]);

/** The sentences of all documents, manifest texts and standard parts, by file and line. */
export function documentTexts(): UserText[] {
  const tracked = execFileSync('git', ['ls-files', '-z', '-c', '-o', '--exclude-standard'], { cwd: root, encoding: 'utf8' });
  return tracked
    .split('\0')
    .sort()
    .flatMap((file) => {
      const sentences = documents.test(file)
        ? markdownSentences
        : data.test(file)
          ? jsonSentences
          : parts.test(file)
            ? docSentences
            : grammar.test(file)
              ? grammarSentences
              : undefined;
      if (sentences === undefined) return [];
      return sentences(readFileSync(join(root, file), 'utf8')).map(({ line, text }) => ({ file, line, text }));
    });
}

interface Sentence {
  readonly line: number;
  readonly text: string;
}

/** The sentences of a Markdown text; what is in code fences is no prose. */
export function markdownSentences(markdown: string): Sentence[] {
  const found: Sentence[] = [];
  let paragraph: Sentence[] = [];
  let fence = false;
  const flush = (): void => {
    found.push(...sentencesOf(paragraph));
    paragraph = [];
  };
  for (const [index, line] of markdown.split('\n').entries()) {
    const isFence = /^\s*```/.test(line);
    if (isFence) fence = !fence;
    if (isFence || fence || line.trim() === '' || /^\s*(<!--|\|\s*-)/.test(line)) {
      flush();
      continue;
    }
    if (/^\s*(#|[-*] |\d+\. |\|)/.test(line)) flush();
    const text = line.replace(/^\s*(#+|[-*]|\d+\.) /, '').trim();
    if (text.startsWith('|')) found.push(...tableSentences(text, index + 1));
    else paragraph.push({ line: index + 1, text });
  }
  flush();
  return found.filter(({ text }) => isSentence(text));
}

function tableSentences(row: string, line: number): Sentence[] {
  return row.split(/(?<!\\)\|/).flatMap((cell) => sentencesOf([{ line, text: cell.trim() }]));
}

/** The lines of a paragraph as sentences, each with the line on which it begins. */
function sentencesOf(lines: readonly Sentence[]): Sentence[] {
  const found: Sentence[] = [];
  let open: { line: number; text: string } | undefined;
  for (const { line, text } of lines)
    for (const piece of text.split(/(?<=[.!?][)”"*`]*) +(?=[\p{Lu}`“*[(])/u)) {
      if (open === undefined) open = { line, text: piece };
      else open.text += ` ${piece}`;
      if (!/[.!?][)”"*`]*$/.test(piece)) continue;
      found.push(open);
      open = undefined;
    }
  return open === undefined ? found : [...found, open];
}

function jsonSentences(json: string): Sentence[] {
  const found: string[] = [];
  visit(JSON.parse(json) as unknown);
  return found.flatMap((text) => {
    const at = json.indexOf(JSON.stringify(text));
    const line = json.slice(0, Math.max(0, at)).split('\n').length;
    return sentencesOf(text.split('\n').map((piece) => ({ line, text: piece })));
  });

  function visit(value: unknown): void {
    if (typeof value === 'string') {
      if (isSentence(value)) found.push(value);
    } else if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) if (!namesOfPrograms.has(key)) visit(inner);
  }
}

/** The documenting comments of a circuit's text, which hovers show. */
function docSentences(text: string): Sentence[] {
  return [...text.matchAll(/\/\*\*([\s\S]*?)\*\//g)].flatMap(({ 1: comment, index }) => {
    const first = text.slice(0, index).split('\n').length;
    return sentencesOf(comment!.split('\n').map((line, i) => ({ line: first + i, text: line.replace(/^\s*\*? ?/, '').trim() })));
  });
}

/** What the grammar's comments say about statements: their summaries, and how messages about them begin. All of it is shown, also a single word. */
export function grammarSentences(text: string): Sentence[] {
  return [...text.matchAll(/\/\*\*([\s\S]*?)\*\//g)].flatMap(({ 1: comment = '', index }) => {
    const first = text.slice(0, index).split('\n').length;
    return comment.split('\n').flatMap((line, i) => {
      const { mark, said = '' } = /^\s*\*? ?(?:@(?<mark>\w+) ?)?(?<said>.*)$/.exec(line)?.groups ?? {};
      if (said.trim() === '' || (mark !== undefined && !sentenceMarks.has(mark))) return [];
      return [{ line: first + i, text: said.trim() }];
    });
  });
}

/** Two words in a row outside of code. */
function isSentence(text: string): boolean {
  return /\p{L}{2,}[,;:)”]* [(“`]?\p{L}{2,}/u.test(text.replace(/`[^`]*`/g, 'Code').replace(/\]\([^)]*\)/g, ']'));
}
