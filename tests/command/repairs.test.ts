/** `lugwork check` offers the wire to move, and the text with that change is clean. */
import { expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { clean } from './circuits.js';

interface Report {
  readonly files: readonly {
    readonly findings: readonly {
      readonly severity: string;
      readonly fixes: readonly { title: string; edits: readonly Edit[] }[];
    }[];
  }[];
}
interface Edit {
  readonly range: { readonly start: Spot; readonly end: Spot };
  readonly text: string;
}
interface Spot {
  readonly line: number;
  readonly character: number;
}

test('a pickup on the wrong throw is reported with the move that corrects it', () => {
  // The lead goes to the other pole's first throw, whose common goes to the same net.
  const text = clean.replace(/^(wire neck\.hot\s+to )selector\.\w+/m, '$1selector.B1');
  const folder = folderWith({ 'no-3.lug': text });
  const { code, out } = inProcess(['check', '--format', 'json', 'no-3.lug'], folder);
  expect(code).toBe(1);
  const fixes = (JSON.parse(out) as Report).files[0]!.findings.flatMap((finding) => finding.fixes);
  expect(fixes.map(({ title }) => title).join('\n')).toMatch(/move .*neck.* from selector\.B1 to selector\.\w+/);
  const repaired = folderWith({ 'no-3.lug': edited(text, fixes[0]!.edits) });
  expect(inProcess(['check', '--strict', 'no-3.lug'], repaired).code).toBe(0);
});

test('a text that cannot be read whole is not rewired', () => {
  const folder = folderWith({ 'no-3.lug': `${clean.replace(/^wire neck\.ground.*$/m, '')}\nwire neck.ground\n` });
  const { out } = inProcess(['check', '--format', 'json', 'no-3.lug'], folder);
  expect((JSON.parse(out) as Report).files[0]!.findings.flatMap((finding) => finding.fixes)).toEqual([]);
});

/** The text with edits carried out from its end, so that earlier places stay. */
function edited(text: string, edits: readonly Edit[]): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const at = ({ line, character }: Spot): number => (starts[line] ?? text.length) + character;
  return [...edits]
    .sort((a, b) => at(b.range.start) - at(a.range.start))
    .reduce((whole, { range, text: put }) => whole.slice(0, at(range.start)) + put + whole.slice(at(range.end)), text);
}
