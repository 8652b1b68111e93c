/** Frequency by frequency with partial pivoting: for a frequency or two, and where the planned order meets a vanishing pivot. */
import { createRows, solveDense, tolerance } from '../../numerics/index.js';
import { netLabel } from '../network/nets.js';
import { windingAdmittance } from '../network/stamps.js';
import type { System } from '../network/system.js';
import type { Solution } from './solution.js';

/** Working memory, used again by every solution. */
let matrix = createRows(0);
let work = createRows(0);
let x = createRows(0);
let column = new Float64Array(0);

/** Solves for one volt read between two unknowns (−1 is the reference), one frequency after the other. */
export function solvePivoted(system: System, plus: number, minus: number, omega: Float64Array): Solution {
  const { size } = system;
  const count = omega.length;
  const out = createRows(size * count);
  if (x.re.length < size) {
    matrix = createRows(size * size);
    work = createRows(size * size);
    x = createRows(size);
    column = new Float64Array(size);
  }
  let problem: string | undefined;
  for (let f = 0; f < count; f++) {
    assemble(system, omega[f]!);
    for (let i = 0; i < size * size; i++) {
      work.re[i] = matrix.re[i]!;
      work.im[i] = matrix.im[i]!;
    }
    for (let i = 0; i < size; i++) {
      x.re[i] = i === plus ? 1 : i === minus ? -1 : 0;
      x.im[i] = 0;
    }
    const result = solveDense(size, work, x, column);
    const failed = result.ok ? worstRow(size, plus, minus) : result.unknown;
    if (failed >= 0) {
      problem ??= unsolvable(system, failed);
      continue;
    }
    for (let u = 0; u < size; u++) {
      out.re[u * count + f] = x.re[u]!;
      out.im[u * count + f] = x.im[u]!;
    }
  }
  const admittance = createRows(system.windings.length * count);
  system.windings.forEach((winding, w) => windingAdmittance(winding, omega, admittance, w * count));
  return { re: out.re, im: out.im, count, admittance, ...(problem === undefined ? {} : { problem }) };
}

function assemble(system: System, omega: number): void {
  const { size } = system;
  matrix.re.fill(0, 0, size * size);
  matrix.im.fill(0, 0, size * size);
  const { rows, columns, real, slope } = system.entries;
  for (let i = 0; i < rows.length; i++) add(rows[i]!, columns[i]!, size, real[i]!, slope[i]! * omega);
  const y = createRows(1);
  const at = Float64Array.of(omega);
  for (const winding of system.windings) {
    const { from, to } = winding;
    windingAdmittance(winding, at, y, 0);
    const [g, b] = [y.re[0]!, y.im[0]!];
    add(from, from, size, g, b);
    add(to, to, size, g, b);
    add(from, to, size, -g, -b);
    add(to, from, size, -g, -b);
  }
}

function add(row: number, across: number, size: number, re: number, im: number): void {
  if (row < 0 || across < 0) return;
  const at = row * size + across;
  matrix.re[at] = matrix.re[at]! + re;
  matrix.im[at] = matrix.im[at]! + im;
}

/** A row whose equation is not met within the tolerance, or −1. */
function worstRow(size: number, plus: number, minus: number): number {
  for (let row = 0; row < size; row++) {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    let offRe = -b;
    let offIm = 0;
    let terms = Math.abs(b);
    for (let i = 0; i < size; i++) {
      const p = matrix.re[row * size + i]!;
      const q = matrix.im[row * size + i]!;
      const u = x.re[i]!;
      const w = x.im[i]!;
      offRe += p * u - q * w;
      offIm += p * w + q * u;
      terms += (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
    }
    if (!(Math.abs(offRe) + Math.abs(offIm) <= tolerance * terms)) return row;
  }
  return -1;
}

function unsolvable(system: System, unknown: number): string {
  const { network, nodeOf } = system;
  const node = nodeOf[unknown]!;
  if (node < 0) return 'a coil or an amplifier stage without any resistance is shorted, or two of them fight: no solution';
  const names = [...network.nodeOf].flatMap((at, net) => (at === node ? [netLabel(network.circuit, network.nets, net)] : []));
  return `the net of ${names.join(', ')} floats: nothing decides its voltage`;
}
