/** Small circuits, from text to reading, against published figures and closed forms. */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { circuitOf } from './harness.js';
import { holdRow } from './rows.js';
import { readSheets } from './tables.js';

const folder = new URL('small-circuits/', import.meta.url);

describe.each(readdirSync(folder))('%s', (file) => {
  describe.each(readSheets(new URL(file, folder)))('$heading', ({ text, rows }) => {
    const { circuit } = circuitOf(text);
    it('is read whole', () => expect(circuit.problems).toEqual([]));
    it.each(rows)('$setting', (row) => holdRow(circuit, row));
  });
});
