/** What holds for a release whatever is in it: its version is told, its packages are known, kept up and free to pass on. */
import { describe, expect, test } from 'vitest';
import { read } from '../harness/checkout.js';
import { version } from './make.js';

interface Locked {
  readonly version?: string;
  readonly license?: string;
  readonly deprecated?: string;
  readonly dev?: boolean;
}

const lock = JSON.parse(read('package-lock.json')) as { version: string; packages: Record<string, Locked> };
const locked = Object.entries(lock.packages).filter(([path]) => path !== '');

describe('the version', () => {
  test('has its section in the changes, the newest first', () => {
    const sections = [...read('CHANGELOG.md').matchAll(/^## \[([^\]]+)\](?: - \d{4}-\d{2}-\d{2})?$/gm)].map(([, name]) => name);
    // What is not released yet stands above, as Keep a Changelog has it.
    expect(sections.filter((name, index) => index > 0 || name !== 'Unreleased')[0]).toBe(version);
  });

  test('is the one of the lock file', () => {
    expect(lock.version).toBe(version);
  });
});

describe('the packages of the lock file', () => {
  test('none is deprecated', () => {
    expect(locked.filter(([, entry]) => entry.deprecated !== undefined).map(([path]) => path)).toEqual([]);
  });

  test('none is needed by one who installs the command', () => {
    expect(locked.filter(([, entry]) => entry.dev !== true).map(([path]) => path)).toEqual([]);
  });

  test('are those of package.json, each with a fixed version', () => {
    const { devDependencies } = JSON.parse(read('package.json')) as { devDependencies: Record<string, string> };
    for (const [name, fixed] of Object.entries(devDependencies))
      expect(lock.packages[`node_modules/${name}`]?.version, name).toBe(fixed);
  });
});
