/** The first file of the command: says the version at once, and loads the rest from `command.cjs` with what V8 compiled of it at an earlier start. */
import { readFileSync, writeSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { createCodeCache } from './code-cache.js';
import type { main } from './main.js';
import { version } from './version.js';

const words = process.argv.slice(2);
if (!saysVersion()) await load()(words, new URL('./drawing.js', import.meta.url));

/** True where the version was asked for and written; a stream that refuses it is left to the rest of the command, which says why. */
function saysVersion(): boolean {
  if (words[0] !== '--version' && words[0] !== '-v') return false;
  try {
    writeSync(1, `lugwork ${version}\n`);
    return true;
  } catch {
    return false;
  }
}

/** The rest of the command. It is text of ASCII alone, a function of a CommonJS module whose first line is the hash of its text. */
function load(): typeof main {
  const path = fileURLToPath(new URL('./command.cjs', import.meta.url));
  const source = readFileSync(path, 'latin1');
  const build = /^\/\/ (\w+)\n/.exec(source)?.[1];
  const cache = build === undefined ? undefined : createCodeCache(build, words[0]);
  const cachedData = cache?.read();
  const script = new Script(source, { filename: path, ...(cachedData && { cachedData }) });
  if (cache && (cachedData === undefined || script.cachedDataRejected)) {
    process.on('exit', (code) => {
      // A call that can't run compiles too little to be worth keeping.
      if (code === 0 || code === 1) cache.write(script.createCachedData());
    });
  }
  const module: { exports: { main?: typeof main } } = { exports: {} };
  const define = script.runInThisContext() as (exports: object, require: NodeJS.Require, module: object) => void;
  define(module.exports, createRequire(path), module);
  if (module.exports.main === undefined) throw new Error(`${path} is not the command; build or install it again`);
  return module.exports.main;
}
