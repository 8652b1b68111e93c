/** The examples, the faulty ones too, stand in the layout that the formatter gives. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatText } from '../../language/grammar/index.js';
import { exampleNames, examplesUri } from './harness.js';

describe.each(['', 'faulty/'])('examples/%s', (folder) => {
  it.each(exampleNames(folder))('%s', (name) => {
    const text = readFileSync(new URL(examplesUri + folder + name), 'utf8');
    expect(formatText(text)).toBe(text);
  });
});
