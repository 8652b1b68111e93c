/** What a pot looks to be wired as, and the marks against it. */
import { partOfLug, type Track } from '../../circuit/model.js';
import { travel } from '../../electrics/index.js';
import type { View } from './view.js';

/** Volume, tone, or something that is seldom meant. Common practice: a volume takes its input on 3, its output on 2, ground on 1; a tone uses 2 and 1. */
export function trackMarks(view: View, track: Track): number {
  const { of, isWired, ground } = view;
  const end = track.leavesTo ?? track.b;
  const lugs = [track.a, track.wiper, end];
  const [a, wiper, b] = [of(track.a), of(track.wiper), of(end)];
  const nets = [a, wiper, b];
  const wired = lugs.filter(isWired);
  if (wired.length === 0) return 1.5;
  let marks = wired.length === 1 ? 1 : 0;
  if (!isWired(track.wiper)) marks += 1;
  if (isAcrossCapacitor(view, track, a === b ? [a, wiper] : nets)) return 0.2;
  if (a === b) marks += 1.5;
  if (wiper === a || wiper === b) marks += 1.2;
  if (wiper === ground) marks += 1;
  const full = travel(track, 10) > 0.5 ? b : a;
  const cold = nets.find((net) => net !== ground && view.drained.has(net));
  if (cold !== undefined && !view.isSource(cold)) return marks + toneMarks(view, nets, cold, full);
  if (a === ground || b === ground) return marks + volumeMarks(view, wiper, a === ground ? b : a, wired.length);
  // Two lugs in the way of the signal: it never falls silent.
  return marks + (wired.length === 2 ? 2.2 : 1);
}

/** A bass cut: what is in use of the track lies across a capacitor in the way of the signal. */
function isAcrossCapacitor({ circuit, of, ground }: View, track: Track, nets: readonly number[]): boolean {
  if (nets.includes(ground)) return false;
  return circuit.elements.some(({ kind, a, b, part }) => {
    const ends = [of(a), of(b)];
    return kind === 'capacitor' && part !== track.part && ends[0] !== ends[1] && ends.every((end) => nets.includes(end));
  });
}

/** A tone hangs by one lug on the signal, best at the input of a volume; the capacitor is on the side that is left at 10. */
function toneMarks(view: View, nets: readonly number[], cold: number, full: number): number {
  const signals = nets.filter((net) => net !== cold && net !== view.ground && view.members(net).length > 1);
  let marks = cold === full ? 0.8 : 0;
  if (new Set(signals).size > 1) marks += 1.4;
  const { inputs } = view;
  if (signals.some((net) => net === view.tip && !inputs.includes(net))) marks += 1.2;
  else if (inputs.length > 0 && !signals.some((net) => inputs.includes(net)))
    marks += signals.some((net) => isThrow(view, net)) ? 0.5 : 1.2;
  return marks;
}

/** A volume uses all three lugs: the signal comes to the end and leaves by the wiper, but where several are mixed. */
function volumeMarks(view: View, wiper: number, far: number, wired: number): number {
  const { tip, circuit } = view;
  if (wired < 3) return 2.2;
  const families = (net: number): readonly string[] => view.members(net).map((lug) => partOfLug(circuit, lug).family);
  let marks = 0;
  if (far === tip && wiper !== tip && view.tracksOn(tip) === 1) marks += 0.8;
  // An input with controls alone brings nothing, but where several volumes are mixed.
  if (view.tracksOn(far) < 2 && families(far).every((family) => family === 'control')) marks += 1;
  // What comes to the output's side passes the volume by.
  if (wiper === tip) marks += 0.5 * families(wiper).filter((family) => family === 'pickup' || family === 'switch').length;
  return marks;
}

/** A throw of a switch that chooses a tone, not a pickup. */
function isThrow({ circuit, members, isSource }: View, net: number): boolean {
  return !isSource(net) && members(net).some((lug) => partOfLug(circuit, lug).family === 'switch');
}
