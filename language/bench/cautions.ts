/** The usual cautions of the bench, shown before anything else. */
import type { Circuit } from '../circuit/model.js';

/** Sentences in the order in which they matter; the battery’s only where there is one. */
export function cautions(circuit: Circuit): readonly string[] {
  const battery = circuit.elements.some(({ kind }) => kind === 'battery');
  return [
    'Unplug from the amplifier before you open, solder or meter the instrument.',
    ...(battery ? ['Take the battery out before you measure ohms.'] : []),
    'Keep your fingers off the probes on high readings: they are read along.',
    'The iron and the hot-air gun burn. Wear eye protection when you clip leads. Air the room: flux fume harms. Wash your hands after leaded solder.',
    'Grounded strings tie the player to the amplifier’s chassis: a faulty amplifier or mains outlet can be lethal. Have them tested by a licensed electrician, use a protected outlet, follow the local code.',
    'Never work inside a mains amplifier on the strength of this sheet. Local codes and licensed practice go before what stands here.',
  ];
}
