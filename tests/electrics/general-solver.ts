/** The outside reference: a general circuit solver from the registry, fed with plain decks. */
import { Simulation } from 'eecircuit-engine';
import { afterThisFile } from '../harness/cleanup.js';

const hadWindow = 'window' in globalThis;

let engine: Promise<Simulation> | undefined;

async function started(): Promise<Simulation> {
  engine ??= (async () => {
    // Another file starts with a fresh engine, whatever this one's last deck left in it.
    afterThisFile(() => {
      engine = undefined;
      // The engine sets a `window`, which another library of the same worker would take for a browser's.
      if (!hadWindow) Reflect.deleteProperty(globalThis, 'window');
    });
    const simulation = new Simulation();
    await simulation.start();
    return simulation;
  })();
  return engine;
}

export interface ReferencePoint {
  readonly hz: number;
  readonly re: number;
  readonly im: number;
}

/** Runs a deck with an `.ac` line and reads one net over frequency. */
export async function sweepReference(deck: string, net: string): Promise<readonly ReferencePoint[]> {
  const result = await run(deck);
  if (result.dataType !== 'complex') throw new Error('the deck asks for no sweep');
  const column = (name: string): readonly { readonly real: number; readonly img: number }[] => {
    const found = result.data.find((data) => data.name.toLowerCase() === name);
    if (found === undefined) throw new Error(`the deck has no ${name}: ${result.variableNames.join(' ')}`);
    return found.values;
  };
  const voltage = column(`v(${net.toLowerCase()})`);
  return column('frequency').map(({ real: hz }, i) => ({ hz, re: voltage[i]!.real, im: voltage[i]!.img }));
}

/** Runs a deck with an `.op` line and reads one net. */
export async function directReference(deck: string, net: string): Promise<number> {
  const result = await run(deck);
  if (result.dataType !== 'real') throw new Error('the deck asks for no working point');
  const found = result.data.find((data) => data.name.toLowerCase() === `v(${net.toLowerCase()})`);
  if (found === undefined) throw new Error(`the deck has no ${net}: ${result.variableNames.join(' ')}`);
  return found.values[0]!;
}

async function run(deck: string): ReturnType<Simulation['runSim']> {
  const simulation = await started();
  simulation.setNetList(deck);
  const result = await simulation.runSim();
  const errors = simulation.getError();
  if (errors.length > 0) throw new Error(`${errors.join('\n')}\n${deck}`);
  return result;
}
