/** A readable name for each net, for decks and messages. */
import { deckName } from '../../escape.js';
import { partById, type Circuit } from '../../circuit/model.js';
import type { Nets } from '../model.js';
import { netOf } from './nets.js';

/**
 * Names by net: `0` for ground, else one of the net's lugs with `_` for the dot (`selector_A0`): the jack's tip first, then a pickup's
 * lug, a control's, a switch's, then others, in order of declaration. Letters and digits of ASCII only, no two alike whatever the case.
 */
export function netNames(circuit: Circuit, folded: Nets): readonly string[] {
  const best = new Array<{ readonly rank: number; readonly label: string } | undefined>(folded.count);
  for (const lug of circuit.lugs) {
    const net = netOf(folded, lug.id);
    const rank = lug.id === circuit.output?.tip ? -1 : (ranks[partById(circuit, lug.part).family] ?? 9);
    if (best[net] === undefined || rank < best[net].rank) best[net] = { rank, label: lug.label };
  }
  const used = new Set(['0', 'gnd']);
  return best.map((found, net) => {
    if (net === folded.ground) return '0';
    const plain = deckName(found?.label ?? 'net');
    let name = plain;
    for (let n = 2; used.has(name.toLowerCase()); n++) name = `${plain}_${n}`;
    used.add(name.toLowerCase());
    return name;
  });
}

const ranks: Readonly<Record<string, number>> = { pickup: 0, control: 1, switch: 2, amplifier: 3, jack: 4, passive: 5 };
