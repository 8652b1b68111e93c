/** A blend between two pickups: in the middle both are full up, towards each end one of them falls. */
import { addPart, join, lug, node, type Draft } from './draft.js';
import { track } from './pots.js';
import type { Input, Selected } from './stages.js';
import { parallel } from './voice.js';

/** The pickups on the wipers, so that one at its end is shorted; or on the ends of the tracks, whose other ends then stay free: on ground they would short the other pickup. */
export function addBlend(draft: Draft, inputs: readonly Input[]): Selected {
  const part = addPart(draft, 'blend', { type: 'pot-blend', values: [draft.dice.pick(['250k', '500k']), 'linear'] });
  draft.metal.push(lug(part, 'case'));
  const tracks = [track(draft, part, 'a'), track(draft, part, 'b')] as const;
  const onWipers = draft.dice.percent(50);
  inputs.forEach(({ hot }, index) => join(hot, onWipers ? tracks[index]!.wiper : tracks[index]!.high));
  if (onWipers) draft.returns.push(tracks[0].low, tracks[1].low);
  const [first, second] = inputs as readonly [Input, Input];
  return {
    hot: node(draft, ...tracks.map(({ wiper, high }) => (onWipers ? high : wiper))),
    sounds: (state) => parallel([first.sounds(state), second.sounds(state)]),
    selecting: [],
    states: [new Map()],
    turned: [
      { setting: `${part.name} 0`, sounds: second.sounds },
      { setting: `${part.name} 10`, sounds: first.sounds },
    ],
  };
}
