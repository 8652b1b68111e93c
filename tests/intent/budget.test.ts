/** Searches count work: the same answer whatever the clock says, never more work than was allowed, and with more of it nothing is lost. */
import { afterEach, describe, expect, it, test, vi } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver';
import { findings } from '../../language/findings.js';
import { linesOfNow, locate, repairs, usualWork } from '../../language/intent/index.js';
import { createWork, WorkSpent, type Work } from '../../language/work.js';
import { withRepairsFound } from '../../server/command/repairs.js';
import { repairsOf } from '../../server/lsp/repairs.js';
import { generateCircuit } from '../bench/circuits.js';
import { drawPractice } from '../practice/index.js';
import { circuitOf, example } from './harness.js';

/** A tone pot’s wire on the wrong end of its track, in an instrument of so many parts. */
function spoilt(parts: number): string {
  return generateCircuit(parts).replace('wire volume2.2 to tone2.2', 'wire volume2.2 to tone2.3');
}
const cure = 'move the yellow wire of volume2.2 from tone2.3 to tone2.2: then tone2 has an effect';

afterEach(() => vi.restoreAllMocks());

/** A clock that is a minute further at each look. */
function leap(): void {
  let minutes = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => ++minutes * 60_000);
  vi.spyOn(Date, 'now').mockImplementation(() => ++minutes * 60_000);
}

describe('a clock that leaps a minute at each look changes nothing', () => {
  const text = spoilt(60);

  test('in the command', () => {
    const circuit = circuitOf(text);
    const quiet = withRepairsFound(circuit, findings(circuit), 1);
    leap();
    const hurried = circuitOf(text);
    expect(withRepairsFound(hurried, findings(hurried), 1)).toEqual(quiet);
    expect(quiet.findings.flatMap(({ fixes }) => fixes.map(({ title }) => title))).toContain(cure);
    expect(quiet.incomplete).toBeUndefined();
  });

  test('in the editor, which finds what the command does', async () => {
    const reported: string[] = [];
    leap();
    const found = await repairsOf(circuitOf(text), new CancellationTokenSource().token, (said) => reported.push(said));
    expect(found.map(({ title, edits }) => ({ title, edits }))).toEqual(
      repairs(circuitOf(text)).map(({ title, edits }) => ({ title, edits })),
    );
    expect(found[0]?.title).toBe(cure);
    expect(reported).toEqual([]);
  });
});

test('a question that is taken back has no repairs, and asked again all of them', async () => {
  const circuit = circuitOf(example('faulty/pickup-on-the-wrong-pole'));
  const taken = new CancellationTokenSource();
  taken.cancel();
  leap();
  expect(await repairsOf(circuit, taken.token, () => undefined)).toEqual([]);
  const later = await repairsOf(circuit, new CancellationTokenSource().token, () => undefined);
  expect(later.map(({ title }) => title)).toEqual(repairs(circuit).map(({ title }) => title));
});

it.each([30, 100, 300, 1000])('in %i parts no more is spent than was allowed, and nothing is done after that', (parts) => {
  const circuit = circuitOf(spoilt(parts));
  for (const limit of [1_000, 3_000_000, 12_000_000]) {
    const work = createWork(limit);
    repairs(circuit, { work });
    expect(work.spent).toBeLessThanOrEqual(limit);
    // Even the smallest of these searches takes more: 14 million units in 30 parts.
    expect(work.isSpent).toBe(true);
  }
});

it.each([1, 100, 3_000])('a search that is refused its step number %i asks for no other', (allowed) => {
  let asked = 0;
  const work: Work = {
    limit: Infinity,
    spent: 0,
    isSpent: false,
    charge() {
      if (++asked >= allowed) throw new WorkSpent();
    },
  };
  expect(repairs(circuitOf(spoilt(30)), { work })).toEqual([]);
  expect(asked).toBe(allowed);
});

it.each(['faulty/pickup-on-the-wrong-pole', 'faulty/tone-wired-backwards', 'faulty/frame-not-grounded', 'faulty/output-shorted'])(
  'what a small budget finds in %s a larger one finds too',
  (name) => {
    const circuit = circuitOf(example(name));
    const lists = [1e5, 1e6, 3e6, 1e7, 3e7, 6e8].map((limit) =>
      repairs(circuit, { work: createWork(limit) }).map(({ title }) => title),
    );
    expect(lists[0]).toEqual([]);
    expect(lists.at(-1)).not.toEqual([]);
    for (const [index, list] of lists.slice(0, -1).entries()) {
      if (list[0] !== undefined) expect(lists[index + 1]).toContain(list[0]);
    }
  },
);

test('the faults of a bench are those of the work that was allowed, the commonest first', () => {
  const text = example('two-single-coils-lever-3') + 'measured selector "neck" : reads open\n';
  const whole = locate(circuitOf(text));
  expect(whole.isStopped).toBeUndefined();
  const work = createWork(400_000);
  const some = locate(circuitOf(text), work);
  expect(some.isStopped).toBe(true);
  expect(work.spent).toBeLessThanOrEqual(400_000);
  // A cold joint is the commonest fault (common practice), and an open reading is what one gives.
  expect(whole.suspects[0]?.fault.kind).toBe('cold joint');
  const known = whole.suspects.map(({ fault: { kind, where } }) => `${kind} ${where}`);
  expect(some.suspects.length).toBeGreaterThan(0);
  for (const { fault } of some.suspects) expect(known).toContain(`${fault.kind} ${fault.where}`);
  leap();
  expect(locate(circuitOf(text)).suspects.map(({ fault }) => fault.where)).toEqual(
    whole.suspects.map(({ fault }) => fault.where),
  );
});

test('with everything stated, pots turned as well, a mirrored volume among 24 parts is cured within the usual budget', () => {
  const { text } = drawPractice(116);
  const stated = `${text}${linesOfNow(circuitOf(text), { turns: true }).join('\n')}\n`;
  const ends: Readonly<Record<string, string>> = { 'vol1.1': 'vol1.3', 'vol1.3': 'vol1.1' };
  const circuit = circuitOf(stated.replace(/\bvol1\.[13]\b/g, (lug) => ends[lug] ?? lug));
  const work = createWork(usualWork);
  const [first] = repairs(circuit, { work });
  expect(first?.left).toEqual([]);
  expect(first?.title).toContain('vol1.3 and vol1.1');
  // A circuit of 240 stated settings is judged whole for each cure: what it was read with is not solved again.
  expect(work.isSpent).toBe(false);
});
