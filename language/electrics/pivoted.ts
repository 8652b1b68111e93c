/** Frequency by frequency with partial pivoting: for a frequency or two, and where the planned order meets a vanishing pivot. */
import type { Solution } from './adjoint.js';
import { createRows } from './block.js';
import { solveDense } from './dense.js';
import { netLabel } from './nets.js';
import { tolerance } from './residual.js';
import { windingAdmittance } from './stamps.js';
import type { System } from './system.js';

/** Frequency by frequency with full pivoting by rows. */
export function solvePivoted(system: System, plus: number, minus: number, omega: Float64Array): Solution {
  const { size } = system;
  const count = omega.length;
  const outRe = new Float64Array(size * count);
  const outIm = new Float64Array(size * count);
  let problem: string | undefined;
  for (let f = 0; f < count; f++) {
    const re = new Float64Array(size * size);
    const im = new Float64Array(size * size);
    assemble(system, omega[f]!, re, im);
    const bRe = new Float64Array(size);
    const bIm = new Float64Array(size);
    if (plus >= 0) bRe[plus] = 1;
    if (minus >= 0) bRe[minus] = -1;
    const result = solveDense(size, re.slice(), im.slice(), bRe, bIm);
    if (!result.ok) {
      problem ??= unsolvable(system, result.unknown);
      continue;
    }
    const inexact = worstRow(size, re, im, bRe, bIm, plus, minus);
    if (inexact >= 0) {
      problem ??= unsolvable(system, inexact);
      continue;
    }
    for (let u = 0; u < size; u++) {
      outRe[u * count + f] = bRe[u]!;
      outIm[u * count + f] = bIm[u]!;
    }
  }
  const admittance = createRows(system.windings.length * count);
  system.windings.forEach((winding, w) => windingAdmittance(winding, omega, admittance, w * count));
  return { re: outRe, im: outIm, count, admittance, ...(problem === undefined ? {} : { problem }) };
}

function add(re: Float64Array, im: Float64Array, at: number, x: number, y: number): void {
  re[at] = re[at]! + x;
  im[at] = im[at]! + y;
}

function assemble(system: System, omega: number, re: Float64Array, im: Float64Array): void {
  const { size } = system;
  const { rows, columns, real, slope } = system.entries;
  for (let i = 0; i < rows.length; i++) add(re, im, rows[i]! * size + columns[i]!, real[i]!, slope[i]! * omega);
  const y = createRows(1);
  for (const winding of system.windings) {
    const { from, to } = winding;
    windingAdmittance(winding, Float64Array.of(omega), y, 0);
    const [g, b] = [y.re[0]!, y.im[0]!];
    if (from >= 0) add(re, im, from * size + from, g, b);
    if (to >= 0) add(re, im, to * size + to, g, b);
    if (from < 0 || to < 0) continue;
    add(re, im, from * size + to, -g, -b);
    add(re, im, to * size + from, -g, -b);
  }
}

/** A row whose equation is not met within the tolerance, or −1. */
function worstRow(
  size: number,
  re: Float64Array,
  im: Float64Array,
  xRe: Float64Array,
  xIm: Float64Array,
  plus: number,
  minus: number,
): number {
  for (let row = 0; row < size; row++) {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    let [offRe, offIm, terms] = [-b, 0, Math.abs(b)];
    for (let column = 0; column < size; column++) {
      const p = re[row * size + column]!;
      const q = im[row * size + column]!;
      const u = xRe[column]!;
      const w = xIm[column]!;
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
