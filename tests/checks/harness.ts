/** Circuits from text, and findings as lines of text, for the tests of the checks. */
import { readFileSync, readdirSync } from 'node:fs';
import { lower, type AnalysedCircuit } from '../../language/circuit/index.js';
import { findings } from '../../language/findings.js';
import { parseText } from '../../language/grammar/index.js';
import type { Finding } from '../../language/source.js';

const uri = 'test:/circuit.lug';

export function circuitOf(text: string): AnalysedCircuit {
  return lower(parseText(uri, text));
}

export function findingsOf(text: string): readonly Finding[] {
  return findings(circuitOf(text));
}

/** `error never-heard on neck, neck.hot: message`. */
export function line({ severity, rule, subjects, message }: Finding): string {
  return `${severity} ${rule} on ${subjects.join(', ')}: ${message}`;
}

/** Applies a fix, or any edits, to a text. */
export function applied(text: string, edits: Finding['fixes'][number]['edits']): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const at = ({ line, character }: { readonly line: number; readonly character: number }): number =>
    (starts[line] ?? text.length) + character;
  return [...edits]
    .sort((a, b) => at(b.range.start) - at(a.range.start))
    .reduce((now, { range, text: put }) => now.slice(0, at(range.start)) + put + now.slice(at(range.end)), text);
}

/** Texts of the files of a folder beside this one, by name without ending. */
export function textsIn(folder: string, ending: string): readonly (readonly [name: string, text: string])[] {
  const place = new URL(`${folder}/`, import.meta.url);
  return readdirSync(place)
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => [name.slice(0, -ending.length), readFileSync(new URL(name, place), 'utf8')]);
}
