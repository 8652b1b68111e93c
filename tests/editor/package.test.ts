/** The packaged extension: what is in it, how big it is, and that nothing in it can reach the network. */
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readZip } from '../harness/archives.js';
import { root } from './hosts/place.js';
import { packExtension } from './hosts/stage.js';

const folder = mkdtempSync(join(tmpdir(), 'lw-pack-'));
let entries: ReadonlyMap<string, Buffer>;
let size: number;

beforeAll(async () => {
  const bytes = readFileSync(await packExtension(folder));
  size = bytes.length;
  entries = readZip(bytes);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('holds what the allow-list names and nothing else', () => {
  const allowed = [
    /^extension\.vsixmanifest$/,
    /^\[Content_Types\]\.xml$/,
    /^extension\/(package(\.nls)?\.json|readme\.md|changelog\.md|LICENSE\.txt|THIRD-PARTY\.txt)$/,
    /^extension\/dist\/(desktop|browser|server|command|parser)\.cjs(\.LEGAL\.txt)?$/,
    /^extension\/dist\/(server-web\.js|lugwork\.mjs|drawing\.js|page\.html|[a-z]+-panel\.js|[a-z]+-panel\.css)(\.LEGAL\.txt)?$/,
    /^extension\/extension\/language-configuration\.json$/,
    /^extension\/extension\/icons\/(lugwork\.png|(lug|change-(new|gone|moved|changed))-(light|dark)\.svg)$/,
    /^extension\/extension\/syntaxes\/[\w.-]+\.json$/,
    /^extension\/extension\/l10n\/bundle\.l10n\.json$/,
    /^extension\/extension\/walkthrough\/[\w-]+\.md$/,
    /^extension\/extension\/starts\/page\/[\w-]+\.(svg|css)$/,
    /^extension\/server\/docs\/pictures\/(circuit|comparison|drawing|finding|hover|page|sheet|testing)\.png$/,
  ];
  expect([...entries.keys()].filter((name) => !allowed.some((pattern) => pattern.test(name)))).toEqual([]);
});

test('holds every file that its manifest names', () => {
  const text = entries.get('extension/package.json')!.toString();
  const named = [...text.matchAll(/"(?:\.\/)?((?:dist|extension)\/[\w./-]+\.\w+)"/g)].map(([, path]) => `extension/${path}`);
  expect(named.length).toBeGreaterThan(10);
  expect(named.filter((name) => !entries.has(name))).toEqual([]);
});

test('has a manifest without what only npm needs', () => {
  const manifest = JSON.parse(entries.get('extension/package.json')!.toString()) as Record<string, unknown>;
  for (const key of ['scripts', 'dependencies', 'devDependencies', 'files', 'private'])
    expect(manifest, key).not.toHaveProperty(key);
});

test('is small', () => {
  console.log(`The package is ${(size / 1024).toFixed(0)} KiB, ${entries.size} entries.`);
  // A fifth of it are the pictures of the walkthrough; 75 KiB are the template of the page, and as much are the circuits to begin with and their drawings.
  expect(size).toBeLessThan(3.5 * 1024 * 1024);
});

test('loads no module that reaches the network, but the one for local pipes', () => {
  for (const name of ['desktop.cjs', 'server.cjs', 'browser.cjs', 'server-web.js']) {
    const code = entries.get(`extension/dist/${name}`)!.toString();
    const modules = new Set([...code.matchAll(/\brequire\("([^"]+)"\)/g)].map(([, module]) => module!.replace(/^node:/, '')));
    for (const module of ['http', 'https', 'http2', 'dns', 'tls', 'dgram', 'inspector'])
      expect(modules.has(module), `${name}: ${module}`).toBe(false);
    // `fetch` may be a name of our own; that the one of the platform is not called is a lint rule.
    expect(/\b(XMLHttpRequest|WebSocket|sendBeacon|EventSource)\b/.exec(code)?.[0], name).toBeUndefined();
  }
});

test('holds the licence text and the source of each package that esbuild put into a bundle', async () => {
  const notices = entries.get('extension/THIRD-PARTY.txt')!.toString();
  const folders = await bundledPackages();
  expect(folders.length).toBeGreaterThan(10);
  expect(folders).toContain('node_modules/elkjs');
  for (const folder of folders) {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8')) as Record<
      string,
      string
    >;
    expect(notices, name).toContain(`\n${name} ${version} (`);
    // Free to pass on in any program; the layout engine alone asks that its own source stays available, which the notices say.
    expect(
      ['MIT', 'ISC', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause'].includes(license!) || name === 'elkjs',
      `${name}: ${license}`,
    ).toBe(true);
    const licence = readdirSync(join(root, folder)).find((file) => /^licen[cs]e/i.test(file))!;
    expect(notices, name).toContain(readFileSync(join(root, folder, licence), 'utf8').trim());
  }
  expect(notices).toMatch(/^elkjs .*\nTaken under EPL-2\.0\.\nIts source code is available, .* at https:\/\/\S+elkjs\n/m);
  expect(notices).toContain('Eclipse Public License - v 2.0');
}, 60_000);

test('holds the layout engine once', () => {
  const holders = [...entries].filter(([name, bytes]) => name.endsWith('js') && bytes.includes('org.eclipse.elk.alg.layered'));
  expect(holders.map(([name]) => name)).toEqual(['extension/dist/drawing.js']);
});

test('bears the version of the checkout', () => {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  expect(entries.get('extension.vsixmanifest')!.toString()).toContain(`Version="${version}"`);
});

/** Folders of the packages in the bundles, as the bundler itself tells, apart from the script that writes the notices. */
async function bundledPackages(): Promise<string[]> {
  const { extensionBundles } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as {
    extensionBundles: BuildOptions[];
  };
  const command: BuildOptions = { entryPoints: ['server/command/main.ts'], platform: 'node', format: 'esm', outfile: 'x.mjs' };
  const made = await Promise.all(
    [...extensionBundles, command].map((options) =>
      build({ ...options, absWorkingDir: root, bundle: true, write: false, metafile: true, logLevel: 'error' }),
    ),
  );
  const inputs = made.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  const folders = inputs.flatMap((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? []);
  return [...new Set(folders)].sort();
}
