/** The formats of `lugwork check` for programs: their shapes as the contract and the standards have them. */
import { describe, expect, test } from 'vitest';
import { folderWith, lugwork } from '../harness/process.js';
import { broken, clean } from './circuits.js';

const place = { line: expect.any(Number) as number, character: expect.any(Number) as number };
const range = { start: place, end: place };

function check(format: string, files: Record<string, string>): string {
  return lugwork(['check', '--format', format, ...Object.keys(files)], folderWith(files)).out;
}

describe('json', () => {
  const { files } = JSON.parse(check('json', { 'a.lug': clean, 'b.lug': broken })) as {
    files: { path: string; findings: { rule: string; severity: string; fixes: { edits: object[] }[] }[] }[];
  };

  test('lists every file, a clean one too', () => {
    expect(files.map(({ path }) => path)).toEqual(['a.lug', 'b.lug']);
    expect(files[0]!.findings.filter(({ severity }) => severity === 'error' || severity === 'warning')).toEqual([]);
  });

  test('each finding has the fixed shape', () => {
    expect(files[1]!.findings.length).toBeGreaterThan(0);
    for (const finding of files[1]!.findings) {
      expect(finding).toMatchObject({
        rule: expect.stringMatching(/^[a-z-]+$/) as string,
        message: expect.any(String) as string,
        range,
      });
      expect(['error', 'warning', 'info', 'hint']).toContain(finding.severity);
      expect(finding).toMatchObject({ related: expect.any(Array) as object[], fixes: expect.any(Array) as object[] });
      for (const { edits } of finding.fixes)
        for (const edit of edits) expect(edit).toMatchObject({ range, text: expect.any(String) as string });
    }
  });

  test('counts lines and characters from 0', () => {
    const text = 'part a : no-such-type\n';
    const {
      files: [file],
    } = JSON.parse(check('json', { 'a.lug': text })) as { files: { findings: { range: object; message: string }[] }[] };
    const unknown = file!.findings.find(({ message }) => message.includes('no-such-type'));
    // `no-such-type` stands in the first line behind nine characters.
    expect(unknown!.range).toEqual({ start: { line: 0, character: 9 }, end: { line: 0, character: 21 } });
  });
});

describe('sarif (OASIS SARIF 2.1.0)', () => {
  interface Log {
    version: string;
    $schema: string;
    runs: {
      tool: { driver: { name: string; rules: { id: string }[] } };
      results: {
        ruleId: string;
        ruleIndex: number;
        level: string;
        message: { text: string };
        locations: { physicalLocation: Physical }[];
      }[];
    }[];
  }
  interface Physical {
    artifactLocation: { uri: string };
    region: Record<string, number>;
  }
  const log = JSON.parse(check('sarif', { 'with space.lug': broken })) as Log;
  const [run] = log.runs;

  test('is a log of one run with its rules', () => {
    expect(log.version).toBe('2.1.0');
    expect(run!.tool.driver.name).toBe('lugwork');
    for (const result of run!.results) expect(run!.tool.driver.rules[result.ruleIndex]!.id).toBe(result.ruleId);
  });

  test('its regions count from 1, its addresses are URIs', () => {
    expect(run!.results.length).toBeGreaterThan(0);
    for (const { level, locations } of run!.results) {
      expect(['error', 'warning', 'note']).toContain(level);
      expect(locations[0]!.physicalLocation.artifactLocation.uri).toBe('with%20space.lug');
      for (const figure of Object.values(locations[0]!.physicalLocation.region)) expect(figure).toBeGreaterThanOrEqual(1);
    }
  });
});

describe('junit', () => {
  const xml = check('junit', { 'a.lug': clean, 'b&c.lug': broken });

  test('is XML with a suite for each file', () => {
    expect(xml).toMatch(
      /^<\?xml version="1\.0" encoding="UTF-8"\?>\n<testsuites name="lugwork" tests="\d+" failures="\d+" errors="0">/,
    );
    expect([...xml.matchAll(/<testsuite name="([^"]*)"/g)].map(([, name]) => name)).toEqual(['a.lug', 'b&amp;c.lug']);
  });

  test('counts as many failures as it holds', () => {
    const failures = xml.match(/<failure /g)?.length ?? 0;
    expect(failures).toBeGreaterThan(0);
    expect(xml).toContain(`failures="${failures}" errors="0">\n  <testsuite name="a.lug"`);
  });
});

describe('github', () => {
  test('writes a workflow command a finding', () => {
    const lines = check('github', { 'b.lug': broken }).trimEnd().split('\n');
    for (const line of lines)
      expect(line).toMatch(
        /^::(error|warning|notice) file=b\.lug,line=\d+,endLine=\d+(,col=\d+,endColumn=\d+)?,title=[\w-]+::.+$/,
      );
    expect(lines.some((line) => line.startsWith('::error '))).toBe(true);
  });
});

describe('text', () => {
  // By hand: six unknown types in one file, five in another, each an error.
  const unknown = (count: number): string => Array.from({ length: count }, (_, at) => `part a${at} : nothing-like-it\n`).join('');
  const table = /^rule .*severity +findings +files\n(.*\n)+?\n/m;

  test('ends with a table of the rules where there is much in several files', () => {
    const text = check('text', { 'a.lug': unknown(6), 'b.lug': unknown(5), 'c.lug': clean });
    expect(text).toMatch(table);
    expect(text).toMatch(/^unknown-name +error +11 +2\n/m);
    expect(text.trimEnd().split('\n').at(-1)).toMatch(/^3 files checked: 11 errors/);
  });

  test('has none for few findings, or for one file', () => {
    expect(check('text', { 'a.lug': unknown(5), 'b.lug': unknown(5) })).not.toMatch(table);
    expect(check('text', { 'a.lug': unknown(20), 'c.lug': clean })).not.toMatch(table);
  });

  test('is left out with --quiet', () => {
    const folder = folderWith({ 'a.lug': unknown(6), 'b.lug': unknown(5) });
    expect(lugwork(['check', '--quiet', '.'], folder).out).not.toMatch(table);
  });
});
