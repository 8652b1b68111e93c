// Writes what the licences of bundled packages ask for: each package's name, version, licence, source, and the texts that it comes with.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/** Texts that a package brings for those who pass it on. */
const texts = /^(licen[cs]e|notice|third-?party-?notices)\b/i;

/** Where a package is offered under several licences, the one under which it is taken. */
const taken = { elkjs: 'EPL-2.0' };

/** The notices of the packages in these folders below `root`. A package without a licence text or without a source is an error. */
export function noticesOf(root, folders) {
  const entries = folders.map((folder) => noticeOf(join(root, folder)));
  return `The bundles in dist/ hold these packages as they were published, only joined and shortened, each under its own licence.\n\n${entries.join(`\n${'-'.repeat(72)}\n\n`)}`;
}

function noticeOf(folder) {
  const { name, version, license, repository } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const files = readdirSync(folder).filter((entry) => texts.test(entry));
  if (!files.some((file) => /^licen[cs]e/i.test(file))) throw new Error(`${name} has no licence text`);
  const source = addressOf(typeof repository === 'string' ? repository : repository?.url);
  if (source === undefined) throw new Error(`${name} does not say where its source is`);
  const choice = taken[name] === undefined ? '' : `Taken under ${taken[name]}.\n`;
  const bodies = files.map((file) => readFileSync(join(folder, file), 'utf8').trim());
  return `${name} ${version} (${license})\n${choice}Its source code is available, under the same licence, at ${source}\n\n${bodies.join('\n\n')}\n`;
}

/** `git+https://…`, `git://…` and `owner/name` as an address that a reader can open. */
function addressOf(repository) {
  if (repository === undefined) return undefined;
  if (/^[\w-]+\/[\w.-]+$/.test(repository)) return `https://github.com/${repository}`;
  return repository
    .replace(/^git\+/, '')
    .replace(/^git:/, 'https:')
    .replace(/\.git$/, '');
}
