/** Each circuit of usual practice is right as it stands, states a role, and is found again without it. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { matchTracks, rolesOf } from '../../language/roles/index.js';
import { circuitOf, findingsOf, line } from '../checks/harness.js';
import { root } from '../harness/checkout.js';

const folder = join(root, 'language', 'practice');
const names = readdirSync(folder).filter((name) => name.endsWith('.lug'));

describe.each(names)('%s', (name) => {
  const text = readFileSync(join(folder, name), 'utf8');

  test('says its source, or that it is common practice', () => {
    expect(text).toMatch(/^\/\*\* [^\n]*(Common practice|\(.*\d{4}.*\))[^\n]* \*\/\n/);
  });

  test('is right as it stands', () => {
    expect(
      findingsOf(text)
        .filter(({ severity }) => severity === 'error' || severity === 'warning')
        .map(line),
    ).toEqual([]);
  });

  test('its roles are inferred without being stated, and no lug departs', () => {
    const stated = rolesOf(circuitOf(text)).filter(({ confidence }) => confidence === 'stated');
    expect(stated.length).toBeGreaterThan(0);
    const circuit = circuitOf(text.replace(/\{ role \w+ \}/g, '').replace(/role \w+, /g, ''));
    for (const { unit, word } of stated) {
      const found = rolesOf(circuit).find((role) => JSON.stringify(role.unit) === JSON.stringify(unit));
      expect(found?.word).toBe(word);
      expect(matchTracks(circuit, unit, word).flatMap(({ departs }) => departs)).toEqual([]);
    }
  });
});
