/** The state space: all combinations, equal nets solved once, and what is left out is said. */
import { switchId } from '../../language/circuit/model.js';
import { describe, expect, it } from 'vitest';
import {
  enumerate,
  positionTable,
  restingSetting,
  settingKeys,
  settingLabel,
  settingsMatching,
  withPosition,
} from '../../language/electrics/index.js';
import { circuit, type CircuitBuilder } from './builder.js';

const range = { uri: 'test', start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** `count` pickups, each with a switch of two positions, in parallel at the output. */
function switched(count: number, same = true): CircuitBuilder {
  const b = circuit();
  for (let i = 1; i <= count; i++) {
    b.single(`p${i}`).switch(`s${i}`, { 1: ['A0 A1'], 2: ['A0 A2'] });
    b.wire(`p${i}.hot`, `s${i}.A1`)
      .wire(`p${i}.ground`, 'output.sleeve')
      .wire(`s${i}.A0`, same ? 'output.tip' : 'output.sleeve');
  }
  return b;
}

it('every combination, the first switch slowest', () => {
  const { settings, leftOut } = enumerate(switched(3).build());
  expect(settings.map(({ positions }) => positions.join(''))).toEqual(['000', '001', '010', '011', '100', '101', '110', '111']);
  expect(leftOut).toEqual([]);
});

it('a circuit without a switch has one setting', () => {
  expect(enumerate(circuit().build()).settings).toHaveLength(1);
});

it('4,096 combinations are all worked out', () => {
  const { settings, groups, leftOut } = enumerate(switched(12).build());
  expect(settings).toHaveLength(4096);
  expect(groups).toBe(4096);
  expect(leftOut).toEqual([]);
});

it('equal nets share a group: an unused throw, a contact that joins what is joined', () => {
  const b = circuit()
    .single('p')
    .selector('s', 3)
    .wire('p.hot', 's.A1', 's.A2')
    .wire('s.A0', 'output.tip')
    .wire('p.ground', 'output.sleeve');
  const { group, groups } = enumerate(b.build());
  expect([...group]).toEqual([0, 0, 1]);
  expect(groups).toBe(2);
});

it('switches that rest are held there', () => {
  const b = circuit()
    .single('p')
    .wire('p.ground', 'output.sleeve')
    .switch('kill', { rest: ['A0 A1'], pressed: ['A0 A2'] }, 0);
  const made = b.selector('s', 2).wire('p.hot', 'kill.A0').wire('kill.A1', 's.A1').wire('s.A0', 'output.tip').build();
  expect(enumerate(made).settings.map(({ positions }) => positions)).toEqual([
    [0, 0],
    [0, 1],
  ]);
  expect(settingKeys(made, restingSetting(made))).toEqual({ s: '1' });
  expect(settingKeys(made, withPosition(restingSetting(made), switchId(0), 1))).toEqual({ kill: 'pressed', s: '1' });
  expect(settingLabel(made, withPosition(restingSetting(made), switchId(0), 1))).toBe('kill pressed, s 1');
});

describe('beyond 4,096', () => {
  it('switches that touch no common net are taken apart, and that is said', () => {
    // Seven switches in a row at the output, and seven that only meet ground.
    const b = switched(7);
    for (let i = 1; i <= 7; i++)
      b.single(`q${i}`)
        .switch(`t${i}`, { 1: ['A0 A1'], 2: ['A0 A2'] })
        .wire(`q${i}.hot`, `t${i}.A0`)
        .wire(`t${i}.A1`, 'output.sleeve');
    const { settings, leftOut } = enumerate(b.build());
    // 2⁷ of the first group, and each of the others by itself in its second position.
    expect(settings).toHaveLength(128 + 7);
    expect(leftOut[0]).toBe('14 switches make 16,384 combinations, more than 4,096: not every combination is worked out');
    expect(leftOut).toContain('varied together: s1, s2, s3, s4, s5, s6, s7, with the others in their first position');
    expect(leftOut).toContain('each of the other 7 is varied alone, with the others in their first position');
    expect(leftOut).toHaveLength(3);
  });

  it('one group that is too large is cut; every position of every switch still stands in the table', () => {
    const made = switched(14).build();
    const { settings, leftOut } = enumerate(made);
    expect(settings.length).toBeLessThanOrEqual(4096);
    for (const device of made.switches) {
      for (const at of device.positions.keys())
        expect(
          settings.some(({ positions }) => positions[device.id] === at),
          `${device.name} ${at}`,
        ).toBe(true);
    }
    expect(leftOut.length).toBeGreaterThan(1);
  });

  it('a circuit of many elements is tried in fewer combinations, the report says how many, and every position is in the table', () => {
    const elements = (count: number, switches: number) => {
      const b = switched(switches);
      for (let i = b.build().elements.length; i < count; i++) b.resistor(`r${i}`, 1e6, 'output.tip', 'output.sleeve');
      const made = b.build();
      expect(made.elements).toHaveLength(count);
      return made;
    };
    expect(enumerate(elements(100, 12)).leftOut).toEqual([]);
    // Four times the hundred elements, a quarter of the 4,096 combinations.
    expect(enumerate(elements(400, 10)).settings).toHaveLength(1024);
    const { settings, leftOut } = enumerate(elements(400, 11));
    expect(settings.length).toBeLessThanOrEqual(1024);
    expect(leftOut[0]).toBe('11 switches make 2,048 combinations, more than 1,024: not every combination is worked out');
    for (let device = 0; device < 11; device++)
      for (const at of [0, 1]) expect(settings.some(({ positions }) => positions[device] === at)).toBe(true);
    // However many there are, 256 are turned through.
    expect(enumerate(elements(3000, 8)).settings).toHaveLength(256);
  });

  it('another limit', () => {
    expect(enumerate(switched(4).build(), { limit: 8 }).settings.length).toBeLessThanOrEqual(8);
  });
});

it('settings that an expectation speaks of', () => {
  const made = switched(2).build();
  const at = (positions: number): readonly (readonly number[])[] =>
    settingsMatching(made, [{ kind: 'switch', switch: switchId(0), position: positions, range }]).map(
      (setting) => setting.positions,
    );
  expect(at(1)).toEqual([
    [1, 0],
    [1, 1],
  ]);
  expect(settingsMatching(made, [])).toHaveLength(4);
});

it('rows of one group are one result', () => {
  const { rows } = positionTable(switched(3, false).build(), { response: true });
  expect(rows.map((row) => row.sound.text)).toEqual(Array.from({ length: 8 }, () => 'silent'));
  const both = positionTable(switched(2).build()).rows;
  expect(both.map(({ set, sound }) => [set, sound.text])).toEqual([
    [{ s1: '1', s2: '1' }, 'parallel(p1, p2)'],
    [{ s1: '1', s2: '2' }, 'p1'],
    [{ s1: '2', s2: '1' }, 'p2'],
    [{ s1: '2', s2: '2' }, 'silent'],
  ]);
});

it('a table cut short on one question is whole on the next', () => {
  const made = switched(3).build();
  expect(enumerate(made, { limit: 4 }).settings.length).toBeLessThan(8);
  expect(enumerate(made).settings).toHaveLength(8);
  expect(enumerate(made, { limit: 4 }).settings.length).toBeLessThan(8);
  expect(enumerate(made)).toBe(enumerate(made));
});
