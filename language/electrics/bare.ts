/** What the coils of an arrangement would deliver without anything passive beside them. */
import type { Circuit, Coil, ElementId } from '../circuit/model.js';
import type { Expression } from './expression.js';

/** Complex impedance in ohms, and how much of its own voltage each coil brings to the ends. */
interface Bare {
  readonly re: number;
  readonly im: number;
  readonly transfers: ReadonlyMap<ElementId, { readonly re: number; readonly im: number }>;
}

/** Share of its own voltage (0 …) that each coil would bring to the open ends of the bare arrangement at a frequency. */
export function bareTransfers(circuit: Circuit, expression: Expression, hz: number): ReadonlyMap<ElementId, number> {
  const { transfers } = bare(circuit, expression, 2 * Math.PI * hz);
  return new Map([...transfers].map(([coil, t]) => [coil, Math.hypot(t.re, t.im)]));
}

function bare(circuit: Circuit, expression: Expression, omega: number): Bare {
  if (expression.kind === 'coil') {
    const coil = circuit.elements[expression.coil] as Coil;
    return { re: coil.resistance.value, im: omega * coil.inductance.value, transfers: new Map([[coil.id, { re: 1, im: 0 }]]) };
  }
  if (expression.kind === 'stage') {
    const input = bare(circuit, expression.input, omega);
    return { re: expression.ohm, im: 0, transfers: scaled(input.transfers, expression.gain, 0) };
  }
  const members = expression.members.map((member) => bare(circuit, member, omega));
  if (expression.kind === 'series') {
    return {
      re: members.reduce((sum, member) => sum + member.re, 0),
      im: members.reduce((sum, member) => sum + member.im, 0),
      transfers: new Map(members.flatMap((member) => [...member.transfers])),
    };
  }
  // In parallel each member counts by its admittance; one without impedance would take all, and counts by a very small one.
  const admittances = members.map(({ re, im }) => {
    const size = Math.max(re * re + im * im, 1e-12);
    return { re: re / size, im: -im / size };
  });
  const re = admittances.reduce((sum, y) => sum + y.re, 0);
  const im = admittances.reduce((sum, y) => sum + y.im, 0);
  const size = re * re + im * im;
  const shares = admittances.map((y) => ({ re: (y.re * re + y.im * im) / size, im: (y.im * re - y.re * im) / size }));
  return {
    re: re / size,
    im: -im / size,
    transfers: new Map(members.flatMap((member, i) => [...scaled(member.transfers, shares[i]!.re, shares[i]!.im)])),
  };
}

function scaled(transfers: Bare['transfers'], re: number, im: number): Bare['transfers'] {
  return new Map([...transfers].map(([coil, t]) => [coil, { re: t.re * re - t.im * im, im: t.re * im + t.im * re }]));
}
