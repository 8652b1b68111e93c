/** What an edit of one wire brought, under its cause without a search: when it is known so, and that the search comes to the same. */
import { describe, expect, test } from 'vitest';
import { withCauses, type Follows } from '../../language/causes.js';
import { findings } from '../../language/findings.js';
import { repairs } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';
import { createEditCauses } from '../../server/lsp/edit-causes.js';
import { circuitOf, uri } from '../intent/harness.js';
import { drawPractice } from '../practice/index.js';
import { twoPickups } from './circuits.js';

function read(text: string) {
  const circuit = circuitOf(text);
  return { snapshot: { uri, text, circuit }, found: findings(circuit) };
}

/** Takes one text after the other; what follows from what in the last. */
function typed(...texts: readonly string[]) {
  const causes = createEditCauses();
  const steps = texts.map((text) => {
    const { snapshot, found } = read(text);
    return { found, follows: causes.take(snapshot, found) };
  });
  return steps.at(-1)!;
}

function listed(found: readonly Finding[], follows: Follows | undefined): readonly string[] {
  return found.filter((finding) => follows?.has(finding) !== true).map(({ rule, message }) => `${rule}: ${message}`);
}

const right = twoPickups();
/** The hot wire of the volume on another of its lugs. */
const wrong = twoPickups({ 'selector.B0 to volume.3': 'selector.B0 to volume.1' });

describe('an edit of one wire', () => {
  test('is the cause of all that it brings', () => {
    const { found, follows } = typed(right, wrong);
    expect(found.length).toBeGreaterThan(2);
    expect(follows!.size).toBe(found.length - 1);
    expect(new Set(follows!.values()).size).toBe(1);
  });

  test('is compared with the text before it, however often it is edited again', () => {
    const other = twoPickups({ 'selector.B0 to volume.3': 'selector.B0 to volume.case' });
    const [again, once] = [typed(right, other, wrong), typed(right, wrong)];
    expect(again.follows!.size).toBe(again.found.length - 1);
    expect(listed(again.found, again.follows)).toEqual(listed(once.found, once.follows));
  });

  test('is followed by others that leave its findings as they are', () => {
    const line = (text: string) => text.replace('single-coil 6.2k', 'single-coil 6.3k');
    const { found, follows } = typed(right, wrong, line(wrong));
    expect(line(wrong)).not.toBe(wrong);
    expect(follows!.size).toBe(found.length - 1);
  });
});

describe('nothing is known without a search', () => {
  test('of the first text', () => {
    expect(typed(wrong).follows).toBeUndefined();
  });

  test('where two lines change at once', () => {
    const two = twoPickups({
      'selector.B0 to volume.3': 'selector.B0 to volume.1',
      'solder volume.1     to volume.case': 'solder volume.3     to volume.case',
    });
    expect(typed(right, two).follows).toBeUndefined();
  });

  test('where a finding is gone, behind which others may have been', () => {
    const shorted = twoPickups({ 'selector.B0 to volume.3': 'selector.B0 to volume.1', 'output.tip': 'output.sleeve' });
    expect(typed(shorted, wrong).follows).toBeUndefined();
  });

  test('of a text that can’t be read whole', () => {
    expect(typed(right, twoPickups({ 'selector.B0 to volume.3': 'selector.B0 to' })).follows).toBeUndefined();
  });
});

/** Seeds of drawn circuits in which one wire end is written at another lug of the same pot. */
test.each([5, 9, 12, 21, 25])('in drawn circuit %i the search for repairs comes to the same', (seed) => {
  const { text, thin } = drawPractice(seed);
  const whole = `${text}${thin.join('\n')}\n`;
  const ends = [...whole.matchAll(/^wire .* to (\w+)\.([123])\b/gm)];
  let compared = 0;
  for (const end of ends) {
    const at = end.index + end[0].length - 1;
    const spoilt = `${whole.slice(0, at)}${(Number(end[2]) % 3) + 1}${whole.slice(at + 1)}`;
    const { found, follows } = typed(whole, spoilt);
    if (follows === undefined || follows.size === 0 || ++compared > 2) continue;
    const { circuit } = read(spoilt).snapshot;
    const searched = withCauses(found, repairs(circuit), new Map());
    expect(listed(found, follows), spoilt).toEqual(listed(searched.findings, searched.follows));
  }
  expect(compared).toBeGreaterThan(0);
});
