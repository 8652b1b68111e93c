/** Both packages tried from clean: what is in them, the command installed without a network and run in each supported version of Node.js, the language server started. */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { basename, delimiter, dirname, join } from 'node:path';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { makePackages, version, type Packages } from './make.js';
import { nodeFolder, nodeVersions } from './nodes.js';

const folder = mkdtempSync(join(tmpdir(), 'lw-release-'));
const example = 'two-single-coils-lever-3.lug';
const other = 'two-single-coils-lever-4.lug';
let packages: Packages;

beforeAll(() => {
  packages = makePackages(join(folder, 'packages'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('two packages bear the version', () => {
  expect(basename(packages.vsix)).toBe(`lugwork-${version}.vsix`);
  expect(basename(packages.tarball)).toBe(`lugwork-${version}.tgz`);
});

describe('the npm tarball', () => {
  test('holds what is allowed and nothing else', () => {
    const allowed = [
      /^package\/(package\.json|README\.md|CHANGELOG\.md|LICENSE)$/,
      /^package\/dist\/(lugwork\.mjs|command\.cjs|parser\.cjs|drawing\.js|page\.html|server\.cjs)(\.LEGAL\.txt)?$/,
      /^package\/dist\/THIRD-PARTY\.txt$/,
      /^package\/server\/bin\.mjs$/,
      /^package\/man\/lugwork\.1$/,
      /^package\/language\/reference(-[a-z]+)?\.md$/,
      /^package\/language\/checks\/rules\/[a-z-]+\.md$/,
      /^package\/language\/parts\/[a-z]+\.lug$/,
      /^package\/language\/circuit\/circuit\.schema\.json$/,
      /^package\/extension\/syntaxes\/lugwork\.tmLanguage\.json$/,
    ];
    const names = [...packages.inTarball.keys()];
    expect(names.filter((name) => !allowed.some((pattern) => pattern.test(name)))).toEqual([]);
    expect(allowed.filter((pattern) => !names.some((name) => pattern.test(name)))).toEqual([]);
  });

  test('asks for no other package and runs no script when it is installed', () => {
    const manifest = JSON.parse(packages.inTarball.get('package/package.json')!.toString()) as Record<string, unknown>;
    expect(Object.keys(manifest).filter((key) => /dependencies|scripts|private|contributes|main/i.test(key))).toEqual([]);
    expect(manifest['version']).toBe(version);
    expect(manifest['man']).toBe('./man/lugwork.1');
    expect(packages.inTarball.get('package/man/lugwork.1')!.toString()).toContain(`"lugwork ${version}"`);
  });

  test('leads from each page only to what is in it', () => {
    for (const [page, text] of packages.inTarball) {
      if (!page.endsWith('.md')) continue;
      const targets = [...text.toString().matchAll(/\]\((?!https?:|#|mailto:)([^)#\s]+)/g)].map(([, to]) =>
        join(dirname(page), to!).replaceAll('\\', '/'),
      );
      expect(
        targets.filter((to) => !packages.inTarball.has(to)),
        page,
      ).toEqual([]);
    }
  });

  test('is small', () => {
    expect(readFileSync(packages.tarball).length).toBeLessThan(2 * 1024 * 1024);
  });
});

test.each(['inVsix', 'inTarball'] as const)('%s: no file holds a path of this machine', (which) => {
  const paths = [root, homedir(), tmpdir(), process.execPath].filter((path) => path.length > 4).map((path) => `${path}/`);
  for (const [name, bytes] of packages[which])
    for (const path of paths) expect(bytes.includes(path), `${name}: ${path}`).toBe(false);
});

test.each(['inVsix', 'inTarball'] as const)(
  '%s: the notices of the packages in the bundles and our own licence are there',
  (which) => {
    const files = [...packages[which]];
    const notices = files.find(([name]) => name.endsWith('THIRD-PARTY.txt'))![1].toString();
    for (const name of ['langium', 'chevrotain', 'elkjs', 'vscode-languageserver'])
      expect(notices).toMatch(new RegExp(`^${name} \\d`, 'm'));
    const licence = files.find(([name]) => /\/LICENSE(\.txt)?$/.test(name))![1].toString();
    expect(licence).toBe(read('LICENSE'));
  },
);

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

describe.each(nodeVersions)('the command, installed into an empty folder with Node %s', (node) => {
  const bench = join(folder, `bench-${node}`);
  let env: NodeJS.ProcessEnv;

  beforeAll(async () => {
    env = { ...process.env, PATH: `${await nodeFolder(node)}${delimiter}${process.env['PATH'] ?? ''}` };
    mkdirSync(bench);
    writeFileSync(join(bench, 'package.json'), '{ "private": true }\n');
    npm('install', '--offline', '--no-audit', '--no-fund', '--ignore-scripts', packages.tarball);
    for (const name of [example, other]) cpSync(join(root, 'examples', name), join(bench, name));
  });

  test('runs in that version', () => {
    expect(started('node', '--version').out).toBe(`v${node}\n`);
  });

  test('brings no package but itself', () => {
    const { packages: installed } = JSON.parse(readFileSync(join(bench, 'node_modules', '.package-lock.json'), 'utf8')) as {
      packages: object;
    };
    expect(Object.keys(installed)).toEqual(['node_modules/lugwork']);
  });

  test('--version and --help', () => {
    expect(lugwork('--version')).toEqual({ code: 0, out: `lugwork ${version}\n`, err: '' });
    expect(lugwork('--help').out).toContain('lugwork check FILE…');
  });

  test('checks an example', () => {
    expect(lugwork('check', example)).toEqual({ code: 0, out: '1 file checked: no errors, no warnings\n', err: '' });
  });

  test('tells a forgotten wire, its place and the repair, and exits with 1', () => {
    const text = read(`examples/${example}`);
    const broken = text.replace(/^wire neck\.ground .*\n/m, '');
    expect(broken).not.toBe(text);
    writeFileSync(join(bench, 'broken.lug'), broken);
    const { code, out } = lugwork('check', 'broken.lug');
    expect(code).toBe(1);
    expect(out).toMatch(/^broken\.lug:\d+:\d+: error \[loose-lead\] neck\.ground is not soldered to anything/m);
    expect(out).toMatch(/^ {2}try: wire neck\.ground to volume\.case/m);
  });

  test('draws', () => {
    expect(lugwork('draw', example, '-o', 'drawing.svg')).toEqual({ code: 0, out: '', err: '' });
    const svg = readFileSync(join(bench, 'drawing.svg'), 'utf8');
    expect(svg).toMatch(/^<svg /);
    for (const part of ['bridge', 'neck', 'selector', 'volume']) expect(svg).toContain(part);
  });

  test('writes the bench sheet, with its cautions', () => {
    expect(lugwork('sheet', example, '-o', 'sheet.html').code).toBe(0);
    expect(readFileSync(join(bench, 'sheet.html'), 'utf8')).toMatch(/^<!doctype html>[^]*licensed electrician/i);
  });

  test('compares', () => {
    expect(lugwork('compare', example, example).out).toContain('no electrical change');
    const { code, out } = lugwork('compare', example, other);
    expect(code).toBe(0);
    expect(out).toContain('lever-4');
    // Where the layout's script is not found the drawing is a plain one, and that is said.
    const picture = lugwork('compare', '--format', 'svg', example, other);
    expect({ code: picture.code, err: picture.err }).toEqual({ code: 0, err: '' });
    expect(picture.out).toMatch(/^<svg /);
  });

  test('says what it cannot read and exits with 2', () => {
    const { code, err } = lugwork('check', 'missing.lug');
    expect(code).toBe(2);
    expect(err).toContain('missing.lug');
  });

  test('the language server of the package answers over its standard streams', async () => {
    const command = join(bench, 'node_modules', 'lugwork', 'server', 'bin.mjs');
    expect(existsSync(command)).toBe(true);
    const child = spawn('node', [command, 'language-server', '--stdio'], {
      cwd: bench,
      env,
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
    connection.listen();
    // What is cheap to find is reported first, the rest behind it.
    const reported = new Promise<void>((resolve) => {
      connection.onNotification('textDocument/publishDiagnostics', ({ diagnostics }: { diagnostics: { code: string }[] }) => {
        if (diagnostics.some(({ code }) => code === 'loose-lead')) resolve();
      });
    });
    await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
    await connection.sendNotification('initialized', {});
    const text = 'instrument "Alder Lane no. 9"\npart neck : single-coil\npart output : jack\nwire neck.hot to output.tip\n';
    const textDocument = { uri: 'file:///bench/nine.lug', languageId: 'lugwork', version: 1, text };
    await connection.sendNotification('textDocument/didOpen', { textDocument });
    await reported;
    const closed = new Promise((resolve) => child.once('close', resolve));
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    expect(await closed).toBe(0);
    connection.dispose();
  });

  /** The command by the link that npm made for it. */
  function lugwork(...words: string[]): Ended {
    return started(join(bench, 'node_modules', '.bin', process.platform === 'win32' ? 'lugwork.cmd' : 'lugwork'), ...words);
  }

  function npm(...words: string[]): void {
    const { code, out, err } = started('npm', ...words);
    if (code !== 0) throw new Error(`npm ${words.join(' ')} failed: ${out}${err}`);
  }

  function started(program: string, ...words: string[]): Ended {
    const run = spawnSync(program, words, { cwd: bench, encoding: 'utf8', env, shell: process.platform === 'win32' });
    return { code: run.status, out: run.stdout, err: run.stderr };
  }
});
