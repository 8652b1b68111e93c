// Loaded into the server before it starts: measures how long each turn of its event loop takes, and reports over IPC what was seen since it was last asked.
import process from 'node:process';
import { performance } from 'node:perf_hooks';
import { setImmediate } from 'node:timers';

/** Milliseconds of work from which on a turn is counted: below it the loop was idle. */
const least = 1;
let turns = [];
let last = { wall: performance.now(), cpu: process.cpuUsage() };

/** One turn of the loop lies between two of these. What the loop's own thread worked is at most either figure: the clock's, or all threads' processor time. */
function turn() {
  const cpu = process.cpuUsage();
  const wall = performance.now();
  const worked = (cpu.user - last.cpu.user + (cpu.system - last.cpu.system)) / 1000;
  const took = Math.min(wall - last.wall, worked);
  if (took >= least) turns.push(took);
  last = { wall, cpu };
  setImmediate(turn);
}

process.on('message', (message) => {
  if (message !== 'turns') return;
  process.send(turns);
  turns = [];
});
setImmediate(turn);
