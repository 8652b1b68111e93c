/** Where the checkout is, and its files by kind, for tests that read the project itself. */
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of package.json. */
export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Paths from the root, with slashes, of the files under a folder, in order; what tools make is left out. */
export function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .flatMap((entry) => {
      const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) return isMade(path) ? [] : filesUnder(path);
      return [path];
    })
    .sort();
}

/** The text of a file, by its path from the root. */
export function read(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

/** TypeScript files of the project written by hand. */
export function sources(...folders: readonly string[]): string[] {
  return folders.flatMap(filesUnder).filter((path) => path.endsWith('.ts') && !isGenerated(path));
}

/** True for a file that is made from others: it stands in a folder `generated`, or its first line says what made it. */
export function isGenerated(path: string): boolean {
  return (
    path.includes('/generated/') || path.includes('.generated.') || /\bMade by \S+\.mjs\b/.test(read(path).split('\n', 1)[0]!)
  );
}

/** The modules a TypeScript file imports or exports from, as written; `isType` for imports of types alone. */
export function importsOf(path: string): { from: string; isType: boolean }[] {
  const text = read(path).replace(/\/\*[^]*?\*\//g, '');
  const statements = text.matchAll(/^\s*(?:import|export)\b(?:(\s+type)?[^'";]*?\bfrom)?\s*['"]([^'"]+)['"]/gm);
  const dynamic = text.matchAll(/\bimport\(\s*['"]([^'"]+)['"]/g);
  return [
    ...[...statements].map(([, type, from]) => ({ from: from!, isType: type !== undefined })),
    ...[...dynamic].map(([, from]) => ({ from: from!, isType: false })),
  ];
}

/** The path from the root that a relative import of `path` leads to. */
export function targetOf(path: string, from: string): string {
  const steps = dirname(path).split('/');
  for (const step of from.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.') steps.push(step);
  }
  return steps.join('/').replace(/\.js$/, '.ts');
}

function isMade(path: string): boolean {
  return ['node_modules', 'dist', 'coverage', '.cache', '.git'].some((name) => path === name || path.endsWith(`/${name}`));
}
