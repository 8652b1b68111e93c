// Bundles everything that runs into dist/: the command, the language server, the editor's extension.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { drawingBundle, extensionBundles, pageBundle } from '../../extension/scripts/bundles.mjs';
import { noticesOf } from './notices.mjs';
import { bundle, ensureInstalled, root } from './setup.mjs';

const version = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version;
const command = { platform: 'node', target: 'node20.19', define: { LUGWORK_VERSION: JSON.stringify(version) } };

/** The parser that says what is wrong with a statement. Most calls meet none, so the command loads it when one does. */
const parserBundle = {
  ...command,
  entryPoints: ['language/grammar/reading/services.ts'],
  outfile: join(dirname(bundle), 'parser.cjs'),
  format: 'cjs',
  // Langium takes two names from the protocol for documents that an editor opens, and the command has none. To load it took a third of the time of all modules.
  alias: { 'vscode-languageserver-protocol': 'vscode-jsonrpc/lib/common/messages.js' },
};

/** Puts in the parser's place a module that loads its bundle. */
const lateParser = {
  name: 'late-parser',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /\/services\.js$/ }, ({ resolveDir }) =>
      resolveDir.endsWith(join('language', 'grammar', 'reading')) ? { path: 'parser', namespace: 'late' } : undefined,
    );
    onLoad({ filter: /^parser$/, namespace: 'late' }, () => ({
      contents: `let parser;
        export function parseByLangium(...given) {
          parser ??= require('./parser.cjs');
          return parser.parseByLangium(...given);
        }`,
    }));
  },
};

/** The command but for its first file, which starts it: what is compiled of it is kept between starts. */
const commandBundle = {
  ...command,
  entryPoints: ['server/command/main.ts'],
  outfile: join(dirname(bundle), 'command.cjs'),
  format: 'cjs',
  // A function, as `start.ts` calls it.
  banner: { js: '(function (exports, require, module) {' },
  footer: { js: '})' },
  external: ['./parser.cjs'],
  plugins: [lateParser],
};

/** The first file; it comes last, since a build is taken for whole where it is new. */
const startBundle = { ...command, entryPoints: ['server/command/start.ts'], outfile: bundle, format: 'esm' };

/** Writes the command's bundles alone. */
export async function buildCommand() {
  await writeBundles([commandBundle, parserBundle, drawingBundle, pageBundle, startBundle]);
}

/** Writes every bundle, the command and the extension with its language server, and the notices of the packages in them. Returns the folders of those packages. */
export async function build() {
  const packages = await writeBundles([commandBundle, parserBundle, ...extensionBundles, startBundle]);
  writeFileSync(join(dirname(bundle), 'THIRD-PARTY.txt'), noticesOf(root, packages));
  return packages;
}

/** Writes the bundles. They bear the time at which the build began, so a source that changes meanwhile counts as newer. Returns the folders of the packages in them. */
export async function writeBundles(bundles) {
  const began = new Date();
  const { build: esbuild } = await import('esbuild');
  const common = {
    absWorkingDir: root,
    bundle: true,
    write: false,
    metafile: true,
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'linked',
    logLevel: 'warning',
  };
  const made = await Promise.all(bundles.map((options) => esbuild({ ...common, ...options })));
  mkdirSync(dirname(bundle), { recursive: true });
  for (const file of made.flatMap(({ outputFiles }) => outputFiles)) {
    const contents = file.path === commandBundle.outfile ? withHash(file) : file.contents;
    // Two builds may run at once; each moves its finished file into place.
    const waiting = `${file.path}.${process.pid}`;
    writeFileSync(waiting, contents);
    utimesSync(waiting, began, began);
    renameSync(waiting, file.path);
  }
  const inputs = made.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  const folders = inputs
    .map((path) => /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0])
    .filter((folder) => folder !== undefined);
  return [...new Set(folders)].sort();
}

/** The text with its hash in the first line, by which its compiled form is kept. It is ASCII alone, since that is read fastest: the bundler leaves other signs in patterns. */
function withHash({ text }) {
  const plain = text.replace(/[^\0-\x7F]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
  return `// ${createHash('sha256').update(plain).digest('hex').slice(0, 16)}\n${plain}`;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    ensureInstalled();
    await build();
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
