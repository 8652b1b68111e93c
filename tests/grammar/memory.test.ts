/** What is kept of a statement must not keep the text alive in which it once stood, or every key pressed in a long file would cost its length. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { createTextParser } from '../../language/grammar/index.js';

const collect = (): number => {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
  return process.memoryUsage().heapUsed;
};

/** A hundred thousand characters, made anew for each edit. */
const long = (last: string): string => [...Array.from({ length: 1000 }, () => '// '.padEnd(99, 'x')), last].join('\n');

test.each([
  ['a wire', (n: number) => `wire selector.A1 to selector.A${n}`],
  ['a title', (n: number) => `instrument "Alder Lane no. ${n}, with a title that is long"`],
  ['a comment of a part', (n: number) => `/** What part no. ${n} is there for, in many words. */\npart spare-${n} : star`],
  ['a long name', (n: number) => `part a-name-that-is-long-${n} : star`],
  ['an error', (n: number) => `wire selector.A1 towards selector.A${n}`],
])('%s', (_, line) => {
  const parser = createTextParser();
  const type = (from: number): void => {
    for (let n = from; n < from + 200; n++) parser.parse('memory:/long.lug', long(line(n)));
  };
  type(0);
  const before = collect();
  type(200);
  // 200 texts of 100 kB would be 20 MB.
  expect((collect() - before) / 1e6).toBeLessThan(3);
});
