/** Texts of a size and a monotony that nobody types, checked by the built command: its processor time and the most memory that it held. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { milliseconds } from './timing.js';

export const heavyHeads = ['text', 'ms', 'MB', 'problems'];

const characters = 900_000;
/** A text of nothing but these characters, again and again. */
const repeated = [
  '"',
  '.',
  '{',
  '}',
  '(',
  '\\',
  '/*',
  '/**/',
  'a',
  '1',
  ',',
  ':',
  '%',
  '?',
  '\n',
  'a\n',
  '"\n',
  'a ',
  '1 k ',
  '“',
];

export function heavyTexts(): ReadonlyMap<string, string> {
  const chain = `part strip : tag-strip\nwire strip.1${Array.from({ length: 4_999 }, (_, i) => ` to strip.${i + 2}`).join('')}\n`;
  return new Map([
    ['a chain of 5,000 lugs', chain],
    ...repeated.map((one) => [`900 KB of ${JSON.stringify(one)}`, one.repeat(characters / one.length)] as const),
  ]);
}

/** A row for each, checked by a process of its own. */
export function heavyRows(command: string): string[][] {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-heavy-'));
  try {
    return [...heavyTexts()].map(([name, text]) => {
      const file = join(folder, 'heavy.lug');
      writeFileSync(file, text);
      return [name, ...checked(command, file, folder)];
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The command's process tells at its end what it used. */
function checked(command: string, file: string, folder: string): string[] {
  const report = join(folder, 'report.mjs');
  writeFileSync(
    report,
    `process.on('exit', () => { const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage(); process.stderr.write('\\nUSED ' + maxRSS + ' ' + (userCPUTime + systemCPUTime)); });\n`,
  );
  const run = spawnSync(process.execPath, ['--import', pathToFileURL(report).href, command, 'check', '--format', 'json', file], {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  });
  const [, kilobytes, microseconds] = /USED (\d+) (\d+)$/.exec(run.stderr) ?? [];
  const found = JSON.parse(run.stdout) as { readonly files: readonly { readonly findings: readonly unknown[] }[] };
  return [
    milliseconds(Number(microseconds) / 1000),
    (Number(kilobytes) / 1024).toFixed(0),
    String(found.files[0]?.findings.length ?? 0),
  ];
}
