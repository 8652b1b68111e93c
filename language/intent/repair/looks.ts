/** How a wire looks, as it is written behind its last lug. */
import { lugById, type Circuit, type Joint } from '../../circuit/model.js';

/** ` black 22awg shielded screen to volume.case`: what a run says of itself, its part's own lead left out. */
export function looksText(circuit: Circuit, joint: Joint): string {
  if (joint.kind !== 'wire') return '';
  const words = joint.ownLead ? [] : [joint.colour, joint.gauge === undefined ? undefined : `${joint.gauge}awg`];
  words.push(
    joint.length === undefined ? undefined : `${Number((joint.length * 1000).toPrecision(9))}mm`,
    joint.bare ? 'bare' : undefined,
    joint.twisted ? 'twisted' : undefined,
  );
  if (joint.shielded) {
    const ties = circuit.joints
      .filter((other) => other.kind === 'screen' && other.a === joint.screen)
      .map(({ b }) => lugById(circuit, b).label);
    words.push('shielded', ties.length === 0 ? undefined : `screen to ${ties.join(' and ')}`);
  }
  return words.map((word) => (word === undefined ? '' : ` ${word}`)).join('');
}
