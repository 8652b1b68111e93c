/** Each mistake is told with the change that undoes it: the wires that must come back are those that were there before. */
import { expect, describe, it } from 'vitest';
import { findings } from '../../language/findings.js';
import { linesOfNow, repairs, withRepairs } from '../../language/intent/index.js';
import { casesIn, circuitOf, example, wires, withFix } from './harness.js';

describe.each([...casesIn('repairs.txt'), ...casesIn('web-diagrams.txt')])('$title', ({ text, sections }) => {
  const circuit = circuitOf(text);
  const found = repairs(circuit);
  const [first] = found;

  it('can be read', () => {
    expect(circuit.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  if (sections.has('nothing'))
    it('brings no repair', () => {
      expect(found.map(({ title }) => title)).toEqual([]);
    });

  if (sections.has('first'))
    it('comes first', () => {
      const [expected] = sections.get('first')!;
      expect(first?.title).toSatisfy(
        (title: string) => (expected!.endsWith('*') ? title.startsWith(expected!.slice(0, -1)) : title === expected),
        first?.title,
      );
    });

  if (sections.has('unstated'))
    it('is fixed in the same way where nothing is expected', () => {
      const [likeliest] = repairs(circuitOf(text.replace(/^expect.*\n/gm, '')));
      expect(likeliest?.title).toBe(sections.get('unstated')![0]);
    });

  if (sections.has('restores') || sections.has('lacks'))
    it('makes the wires what they were', () => {
      const after = wires(circuitOf(withFix(text, first!)));
      for (const line of sections.get('restores') ?? []) {
        const [, kind, a, b] = /^(\w+) (\S+) to (\S+)$/.exec(line)!;
        expect(after, first!.title).toContain(`${kind} ${[a, b].sort().join(' ')}`);
      }
      for (const line of sections.get('lacks') ?? []) expect(after, first!.title).not.toContain(line);
    });

  if (sections.has('writes'))
    it('is written in the layout of the file', () => {
      for (const line of sections.get('writes')!) expect(withFix(text, first!).split('\n')).toContain(line);
    });

  if (found.length > 0)
    it('leaves nothing to find', () => {
      const after = findings(circuitOf(withFix(text, first!))).filter(
        ({ severity }) => severity === 'error' || severity === 'warning',
      );
      expect(after.map(({ message }) => message)).toEqual(first!.left.map(({ message }) => message));
    });

  if (found.length > 0)
    it('is offered at every finding that it cures, before what the rule itself offers', () => {
      const reported = withRepairs(findings(circuit), found);
      const cured = reported.filter((finding) =>
        first!.cures.some(({ rule, message }) => rule === finding.rule && message === finding.message),
      );
      expect(cured.length).toBe(first!.cures.length);
      for (const finding of cured) expect(finding.fixes[0]!.title).toBe(first!.title);
    });
});

it('of more expectations than are asked of each change the one that fails is among them', () => {
  const right = example('four-pole-lever-split-and-capacitors').replace(/^expect.*\n/gm, '');
  const lines = linesOfNow(circuitOf(right), { turns: true });
  expect(lines.length).toBeGreaterThan(24);
  const wrong = right.replace('from selector.D3 to tone.case', 'from selector.D3 to selector.D2');
  const [first] = repairs(circuitOf(`${wrong}${lines.join('\n')}\n`));
  // The lug beside it is the frame's, which lies on ground as the tone's case does.
  expect(first?.title).toMatch(/^move lead b of cap-3 from selector\.D2 to (tone\.case|selector\.frame): then all/);
});
