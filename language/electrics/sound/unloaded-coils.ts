/** What the coils of an arrangement would deliver without anything passive beside them. */
import type { AnalysedCircuit, ElementId } from '../../circuit/model.js';
import { magnitude } from '../../numerics/index.js';
import { windingBranch } from '../network/branches.js';
import { windingImpedance } from '../network/curves.js';
import type { Expression } from './expression.js';

interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Share of its own voltage (0 …) that each coil would bring to the open ends of the arrangement by itself at a frequency. */
export function unloadedTransfers(circuit: AnalysedCircuit, expression: Expression, hz: number): ReadonlyMap<ElementId, number> {
  const transfers = new Map<ElementId, number>();
  const omega = 2 * Math.PI * hz;
  const deliver = (part: Expression, re: number, im: number): void => {
    if (part.kind === 'coil') transfers.set(part.coil, magnitude(re, im));
    else if (part.kind === 'stage') deliver(part.input, re * part.gain, im * part.gain);
    else if (part.kind === 'series') part.members.forEach((member) => deliver(member, re, im));
    else {
      // In parallel each member counts by its share of the admittance.
      const shares = part.members.map((member) => inverse(impedance(circuit, member, omega)));
      const all = inverse(sum(shares));
      part.members.forEach((member, i) => {
        const share = product(shares[i] ?? none, all);
        deliver(member, re * share.re - im * share.im, re * share.im + im * share.re);
      });
    }
  };
  deliver(expression, 1, 0);
  return transfers;
}

function impedance(circuit: AnalysedCircuit, expression: Expression, omega: number): Complex {
  if (expression.kind === 'coil') {
    const winding = windingBranch(circuit, expression.coil);
    return winding === undefined ? none : windingImpedance(winding, omega);
  }
  if (expression.kind === 'stage') return { re: expression.ohm, im: 0 };
  const members = expression.members.map((member) => impedance(circuit, member, omega));
  return expression.kind === 'series' ? sum(members) : inverse(sum(members.map(inverse)));
}

const none: Complex = { re: 0, im: 0 };

/** A member without impedance would take all, and counts by a very small one. */
function inverse({ re, im }: Complex): Complex {
  const size = Math.max(re * re + im * im, 1e-12);
  return { re: re / size, im: -im / size };
}

function product(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

function sum(of: readonly Complex[]): Complex {
  return of.reduce((all, one) => ({ re: all.re + one.re, im: all.im + one.im }), { re: 0, im: 0 });
}
