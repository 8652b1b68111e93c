/** `lugwork language-server`: what it says where it can't serve. That it serves is tried with editors in tests/lsp/clients, and from the package. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcessAsync } from '../harness/in-process.js';
import { copyCommand, folderWith } from '../harness/process.js';

test('without --stdio it says how it is started', async () => {
  expect(await inProcessAsync(['language-server'])).toEqual({
    code: 2,
    out: '',
    err: 'lugwork: an editor starts the language server and speaks with it: `lugwork language-server --stdio`; in a terminal use `lugwork check`\n',
  });
});

test('a copy of the command without the server says so', () => {
  const folder = folderWith({});
  copyCommand(folder);
  const { status, stderr } = spawnSync(process.execPath, [join(folder, 'lugwork.mjs'), 'language-server', '--stdio'], {
    encoding: 'utf8',
  });
  expect(status).toBe(2);
  expect(stderr).toMatch(/^lugwork: can’t load the language server that is installed with lugwork \(/);
});
