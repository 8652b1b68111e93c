/** `npm run fuzz`: random texts, circuits, messages, edits and killed writes, counted; the same for the same seed. `-- --texts N --circuits N --drawings N --messages N --edits N --kills N --seed N`; with none of them, all in full. */
import { fuzzProtocol } from './protocol.js';
import { randomCircuitText } from './random-circuit-text.js';
import { randomText } from './random-text.js';
import { soak } from './soak.js';
import { tryCircuit } from './try-circuit.js';
import { tryDrawing } from './try-drawing.js';
import { tryText } from './try-text.js';
import { tryKills } from './try-kills.js';
import { createWatch } from './watch.js';

const full = { texts: 200_000, circuits: 2000, drawings: 400, messages: 20_000, edits: 100_000, kills: 200 };
/** Megabytes by which the heap may stand over what it was after the first stretch of edits, at the end of any later one. */
const growth = 20;

const given = new Map<string, number>();
const words = process.argv.slice(3);
for (let i = 0; i < words.length; i += 2) given.set(words[i]!.replace(/^--/, ''), Number(words[i + 1]));
const isChosen = Object.keys(full).some((name) => given.has(name));
const count = (name: keyof typeof full): number => given.get(name) ?? (isChosen ? 0 : full[name]);
const seed = given.get('seed') ?? 1;

const watch = createWatch();
const sizes: number[] = [];
let reported = 0;
const report = (what: string): void => {
  console.log(`${new Date().toISOString().slice(11, 19)} ${what}: ${watch.failures.length - reported} failures`);
  for (const failure of watch.failures.slice(reported, reported + 30)) console.log(`  seed ${failure.seed}: ${failure.what}`);
  reported = watch.failures.length;
};

for (let i = 1; i <= count('texts'); i++) {
  tryText(randomText(seed + i), seed + i, watch);
  if (i % 10_000 === 0 || i === count('texts')) report(`${i} texts parsed, lowered, analysed, laid out`);
}
for (let i = 1; i <= count('circuits'); i++) {
  const text = randomCircuitText(seed + i);
  sizes.push(text.split(/^part /m).length - 1);
  tryCircuit(text, seed + i, watch);
  if (i % 100 === 0 || i === count('circuits')) report(`${i} circuits through everything but the drawing; ${sizesSaid(sizes)}`);
}
for (let i = 1; i <= count('drawings'); i++) {
  await tryDrawing(randomCircuitText(seed + i), seed + i, watch);
  if (i % 50 === 0 || i === count('drawings')) report(`${i} circuits drawn`);
}
if (count('messages') > 0) {
  for (const wellFormed of [true, false]) {
    await fuzzProtocol(count('messages') / 2, seed, watch, wellFormed);
    report(`${count('messages') / 2} messages ${wellFormed ? 'well' : 'badly'} formed`);
  }
}
if (count('edits') > 0) {
  const heaps: number[] = [];
  soak(count('edits'), seed, (edits, heap) => {
    heaps.push(heap);
    const more = heap - heaps[0]!;
    if (more > growth) watch.fail(`the heap grew by ${more.toFixed(1)} MB, more than ${growth} MB`, seed);
    report(`${edits} edits, heap ${heap.toFixed(1)} MB`);
  });
  console.log(`heap at most ${(Math.max(...heaps) - heaps[0]!).toFixed(1)} MB over the first; the bound is ${growth} MB`);
}
if (count('kills') > 0) {
  const met = await tryKills(count('kills'), seed, watch);
  report(`${count('kills')} writes killed, ${met} of them before the new file had taken its place`);
}
for (const [what, { ms, seed: at }] of watch.longest) console.log(`longest ${what}: ${ms.toFixed(0)} ms (seed ${at})`);
console.log(watch.failures.length === 0 ? 'nothing found' : `${watch.failures.length} failures`);
if (watch.failures.length > 0) process.exitCode = 1;

/** How large the circuits are: the smallest, the quarters and the largest. */
function sizesSaid(parts: readonly number[]): string {
  const sorted = [...parts].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))]!;
  return `parts: ${at(0)} to ${at(1)}, a quarter up to ${at(0.25)}, half up to ${at(0.5)}, nine in ten up to ${at(0.9)}`;
}
