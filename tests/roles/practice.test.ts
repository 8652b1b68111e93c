/** Each circuit of usual practice is right as it stands, states a role, and is found again without it. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { lugById, partById, type LugId } from '../../language/circuit/index.js';
import { matchPart, matchUnit, rolesOf } from '../../language/roles/index.js';
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

  const given = circuitOf(text);
  const stated = rolesOf(given).filter(({ confidence }) => confidence === 'stated');
  const bare = text.replace(/\{ role [\w-]+ \}/g, '').replace(/, role [\w-]+|role [\w-]+, /g, '');
  const withoutRoles = circuitOf(bare);

  test('its roles are inferred without being stated, and no lug departs', () => {
    for (const { unit, word } of stated) {
      const found = rolesOf(withoutRoles).find((role) => JSON.stringify(role.unit) === JSON.stringify(unit));
      expect(found?.word).toBe(word);
      expect(matchUnit(withoutRoles, unit, word).flatMap(({ departs }) => departs)).toEqual([]);
    }
  });

  test('the parts that it speaks of are in its own pattern', () => {
    const parts =
      stated.length > 0
        ? stated.map(({ unit }) => unit.part)
        : given.parts.flatMap(({ doc, id }) => (doc === undefined ? [] : [id]));
    expect(parts.length).toBeGreaterThan(0);
    for (const part of parts) {
      const matches = matchPart(withoutRoles, part);
      expect(matches.length).toBeGreaterThan(0);
      for (const { pattern, role, departs } of matches) {
        expect(departs).toEqual([]);
        // Ways to wire a pot may be alike lug by lug.
        if (role?.unit.kind !== 'pot') expect(pattern.name).toBe(name.replace('.lug', ''));
      }
    }
  });

  /** Where the text names a lug at the end of a wire, with the lugs that may be mistaken for it. */
  function places(pattern: string, others: readonly LugId[]) {
    return [...bare.matchAll(new RegExp(pattern, 'gm'))].map(({ index, 0: end }) => ({
      index,
      end,
      others: others.map((id) => lugById(withoutRoles, id).label).filter((label) => label !== end),
    }));
  }

  test('one wire on another lug of the part, or one of its leads on another lug of a control, leaves it in a pattern of its role', () => {
    const lugsOfControls = withoutRoles.parts.flatMap(({ family, lugs }) => (family === 'control' ? lugs : []));
    for (const { unit, word } of stated) {
      const { name: part, lugs } = partById(withoutRoles, unit.part);
      const ends = [
        ...places(`(?<=^(?:wire|solder) .*\\b)${part}\\.\\w+`, [...lugs]),
        ...places(`(?<=^part ${part} .* (?:from|to) )[\\w.-]+`, lugsOfControls),
      ];
      for (const { index, end, others } of ends)
        for (const other of others) {
          const moved = circuitOf(`${bare.slice(0, index)}${other}${bare.slice(index + end.length)}`);
          const matches = matchPart(moved, unit.part).filter(({ role }) => role?.unit.kind === unit.kind);
          expect(matches.map(({ role }) => role?.word)).toEqual(matches.map(() => word));
          expect(matches.length).toBeGreaterThan(0);
        }
    }
  });
});
