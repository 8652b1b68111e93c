/** The workflow in examples/ci and the action, step by step: their shell parts run as a build runs them. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { read, root } from '../../harness/checkout.js';
import { folderWith } from '../../harness/process.js';

export const workflow = read('examples/ci/wiring.yml');

/** The commands of a step of a workflow or an action, by its name. */
function stepNamed(text: string, name: string): string {
  const step = text.slice(text.indexOf(`- name: ${name}\n`));
  const line = /^ +run: (?!\|)(.*)$/m.exec(step);
  const block = /^( +)run: \|\n((?:\1 {2}.*\n)+)/m.exec(step);
  // The step's own command is the first that follows its name.
  if (block === null || (line !== null && line.index < block.index)) return line![1]!;
  return block[2]!.replaceAll(`\n${block[1]!}  `, '\n').trim();
}

export type RunStep = (
  name: string,
  env?: NodeJS.ProcessEnv,
) => { readonly code: number | null; readonly out: string; readonly err: string };

/** Programs beside the repository that come before those of the machine; `npx lugwork` runs this checkout. */
export function createSteps(
  folder: string,
  text = workflow,
): {
  readonly step: RunStep;
  readonly program: (name: string, script: string) => void;
} {
  const programs = join(folderWith({}), 'programs');
  mkdirSync(programs, { recursive: true });
  const program = (name: string, script: string): void => {
    writeFileSync(join(programs, name), `#!/bin/sh\n${script}\n`);
    chmodSync(join(programs, name), 0o755);
  };
  program('npx', `shift\nexec "${process.execPath}" "${join(root, 'dist/lugwork.mjs')}" "$@"`);
  const step: RunStep = (name, env = {}) => {
    const { status, stdout, stderr } = spawnSync('bash', ['-eo', 'pipefail', '-c', stepNamed(text, name)], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, PATH: `${programs}:${process.env['PATH']}`, ...env },
    });
    return { code: status, out: stdout, err: stderr };
  };
  return { step, program };
}
