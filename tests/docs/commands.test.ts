/** The commands that the documents show exist: npm scripts, subcommands, options and the files they name. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { parseCall } from '../../server/command/options.js';
import { read, root } from '../harness/checkout.js';

const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

/** Words of a shell line; quotes hold words together. */
function words(line: string): string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain!);
}

describe.each(
  ['README.md', 'DEVELOPERS.md', 'language/reference.md', 'examples/README.md'].filter((path) => existsSync(join(root, path))),
)('%s', (path) => {
  const text = read(path);

  test('npm scripts exist', () => {
    const named = [...text.matchAll(/\bnpm (?:run ([\w:-]+)|(start|test)\b)/g)].map(([, run, own]) => run ?? own!);
    expect(named.filter((name) => scripts[name] === undefined)).toEqual([]);
  });

  test('subcommands, options and files exist', () => {
    const shown = [...text.matchAll(/```sh\n([^]*?)```/g)].flatMap(([, block]) =>
      block!.split('\n').filter((line) => line.startsWith('npx lugwork ')),
    );
    for (const line of shown) {
      const [, , name, ...rest] = words(line.split(/\s+#/)[0]!);
      if (name!.startsWith('--')) continue;
      const command = commands.find((known) => known.name === name);
      expect(command, line).toBeDefined();
      for (const operand of parseCall(command!, rest).operands)
        expect(existsSync(join(root, operand)), `${line}: ${operand}`).toBe(true);
    }
  });
});

test('the README begins with the job in one paragraph, then the two commands', () => {
  const [title, paragraph, block] = read('README.md').split('\n\n');
  expect(title).toBe('# Lugwork');
  expect(paragraph!.length).toBeGreaterThan(200);
  expect(block).toMatch(/^```sh\nnpm start .*\nnpm test .*\n```$/);
});

test('DEVELOPERS.md says why each dependency is there', () => {
  const { dependencies, devDependencies } = JSON.parse(read('package.json')) as Record<
    'dependencies' | 'devDependencies',
    object
  >;
  const named = new Set(read('DEVELOPERS.md').match(/[@\w][\w@/.-]*/g));
  expect(Object.keys({ ...dependencies, ...devDependencies }).filter((name) => !named.has(name))).toEqual([]);
});
