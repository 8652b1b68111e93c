/** Cases kept in text files: a text, a line `---`, and the lines that it must bring; `====` between cases, `#` lines before the first. */
import { readFileSync } from 'node:fs';

export interface Case {
  /** The first line of the text, for the test's name. */
  readonly name: string;
  readonly text: string;
  readonly expected: string;
}

export function readCases(file: string): Case[] {
  const whole = readFileSync(new URL(`cases/${file}`, import.meta.url), 'utf8').replace(/^(#.*\n)+/, '');
  return whole
    .replace(/\n$/, '')
    .split('\n====\n')
    .map((part) => {
      const [text = '', expected = ''] = part.split('\n---\n');
      return { name: text.split('\n')[0]!, text, expected };
    });
}
