/** Every snippet, filled in with its own proposals, parses; a whole circuit among them has no errors either. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { starter } from '../../extension/starter.js';
import { findings } from '../../language/findings.js';
import { parseText } from '../../language/grammar/index.js';
import { createProject } from '../../language/project.js';
import { root } from './hosts/place.js';

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}

const snippets = JSON.parse(readFileSync(join(root, 'extension', 'snippets', 'lugwork.json'), 'utf8')) as Record<string, Snippet>;

describe.each(Object.entries(snippets))('snippet %s', (_name, { prefix, description, body }) => {
  test('parses as it is filled in', () => {
    const text = fillIn(body.join('\n'));
    expect(text).not.toContain('$');
    expect(parseText('untitled:snippet.lug', `${text}\n`).problems).toEqual([]);
  });

  test('is found by one word and says what it is', () => {
    expect(prefix).toMatch(/^[a-z0-9-]+$/);
    expect(description).toMatch(/^[A-Z].{5,}[^.]$/);
  });
});

test('no two snippets share a prefix', () => {
  const prefixes = Object.values(snippets).map(({ prefix }) => prefix);
  expect(new Set(prefixes).size).toBe(prefixes.length);
});

test.each([
  ['the circuit that a new document begins with', starter],
  ['the snippet of a whole circuit', fillIn(snippets.Circuit!.body.join('\n'))],
])('%s is right: nothing is found in it', (_name, text) => {
  const circuit = createProject({ read: () => text }).circuit('untitled:new.lug');
  expect(findings(circuit!)).toEqual([]);
});

/** What the editor would insert: the proposal of each field, repeated where the field is named again. */
function fillIn(body: string): string {
  const fields = new Map<string, string>();
  const first = body.replace(
    /\$\{(\d+)(?::([^}]*)|\|([^,|}]*)[^}]*\|)\}/g,
    (_all, id: string, text?: string, choice?: string) => {
      const value = (text ?? choice ?? '').replace(/\$(\d+)/g, (_field, other: string) => fields.get(other) ?? '');
      fields.set(id, value);
      return value;
    },
  );
  return first.replace(/\$(\d+)/g, (_all, id: string) => fields.get(id) ?? '');
}
