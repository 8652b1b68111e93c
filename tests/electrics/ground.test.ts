/** The ground network: what hangs free, and what closes a loop. */
import { altered } from '../../language/circuit/model.js';
import { expect, it } from 'vitest';
import { groundNetwork } from '../../language/electrics/index.js';
import { circuit, type CircuitBuilder } from './builder.js';

const ground = (b: CircuitBuilder) => {
  const made = b.build();
  const label = (lug: number): string => made.lugs[lug]!.label;
  const { ungrounded, loops, touchLoops } = groundNetwork(made);
  return {
    free: ungrounded.map(({ lug, always }) => `${label(lug)}${always ? '' : ' sometimes'}`),
    loops: loops.map(({ joints }) => joints.length),
    touchLoops,
  };
};
const three = (): CircuitBuilder => circuit().pot('a').pot('b').metal('star');

it('metal that no wire reaches hangs free in every setting', () => {
  expect(ground(three().wire('a.case', 'output.sleeve')).free).toEqual(['b.case', 'star']);
});

it('a tree has no loop', () => {
  expect(ground(three().wire('a.case', 'b.case', 'star', 'output.sleeve'))).toEqual({ free: [], loops: [], touchLoops: 0 });
});

it('a ring of wires is one loop, with the wires in it', () => {
  expect(ground(three().wire('a.case', 'b.case', 'star', 'output.sleeve', 'a.case')).loops).toEqual([4]);
});

it('two wires side by side are a loop of two; a wire to itself is none', () => {
  expect(
    ground(three().wire('a.case', 'b.case').wire('a.case', 'b.case').wire('b.case', 'star', 'output.sleeve').wire('star', 'star'))
      .loops,
  ).toEqual([2]);
});

it('loops that close where metal touches are counted', () => {
  const b = three()
    .wire('a.case', 'b.case', 'star', 'output.sleeve')
    .join('touch', 'a.case', 'star')
    .join('touch', 'b.case', 'star');
  expect(ground(b)).toEqual({ free: [], loops: [], touchLoops: 2 });
});

it('metal grounded through a switch hangs free in some settings', () => {
  const b = three()
    .wire('a.case', 'b.case', 'output.sleeve')
    .selector('s', 2)
    .wire('s.A0', 'star')
    .wire('s.A1', 'output.sleeve')
    .wire('s.frame', 'output.sleeve');
  expect(ground(b).free).toEqual(['star sometimes']);
});

it('without a jack all metal hangs free', () => {
  const made = altered(three().wire('a.case', 'b.case', 'star').build(), { output: undefined });
  expect(groundNetwork(made)).toMatchObject({ lugs: [], loops: [] });
  expect(groundNetwork(made).ungrounded.every(({ always }) => always)).toBe(true);
});
