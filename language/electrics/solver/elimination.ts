/** Plans the sparse elimination of a system: in which order, and where every value lies. */
import type { Plan } from '../../numerics/index.js';
import type { System } from '../network/system.js';

/** Plans the elimination of a system; `last` is eliminated last, so that a unit at the output needs no forward step. */
export function createPlan(system: System, last: number): Plan {
  const { size } = system;
  const value = new Int32Array(size * size).fill(-1);
  const rows: number[] = [];
  const columns: number[] = [];
  const isSymmetric = system.isReciprocal;
  const place = (row: number, column: number): number => {
    if (row < 0 || column < 0) return -1;
    const at = isSymmetric && row > column ? column * size + row : row * size + column;
    if (value[at] === -1) {
      value[at] = rows.length;
      rows.push(Math.floor(at / size));
      columns.push(at % size);
    }
    return value[at]!;
  };
  const diagonal = new Int32Array(size);
  for (let i = 0; i < size; i++) diagonal[i] = place(i, i);
  const { rows: entryRows, columns: entryColumns } = system.entries;
  const entry = new Int32Array(entryRows.length);
  for (let i = 0; i < entry.length; i++) {
    entry[i] = isSymmetric && entryRows[i]! > entryColumns[i]! ? -1 : place(entryRows[i]!, entryColumns[i]!);
  }
  const touched: { readonly value: number; readonly winding: number; readonly sign: 1 | -1 }[] = [];
  system.windings.forEach(({ from, to }, winding) => {
    const off = isSymmetric ? [place(from, to)] : [place(from, to), place(to, from)];
    for (const value of [place(from, from), place(to, to)]) if (value >= 0) touched.push({ value, winding, sign: 1 });
    for (const value of off) if (value >= 0) touched.push({ value, winding, sign: -1 });
  });
  const own = rows.length;
  const windingsOfValue: { readonly winding: number; readonly sign: 1 | -1 }[][] = Array.from({ length: own }, () => []);
  for (const one of touched) windingsOfValue[one.value]!.push(one);
  const neighbours: number[][] = Array.from({ length: size }, () => []);
  const valuesOfRow: number[][] = Array.from({ length: size }, () => []);
  const columnsOfRow: number[][] = Array.from({ length: size }, () => []);
  for (let v = 0; v < own; v++) {
    const [row, column] = [rows[v]!, columns[v]!];
    if (row === column) continue;
    valuesOfRow[row]!.push(v);
    columnsOfRow[row]!.push(column);
    if (isSymmetric) {
      valuesOfRow[column]!.push(v);
      columnsOfRow[column]!.push(row);
    }
    if (!neighbours[row]!.includes(column)) neighbours[row]!.push(column);
    if (!neighbours[column]!.includes(row)) neighbours[column]!.push(row);
  }
  // A branch current without impedance has nothing on its diagonal: it must wait for its nodes.
  const late = new Uint8Array(size);
  for (const { unknown } of system.currents) late[unknown] = 1;
  const order = new Int32Array(size);
  const done = new Uint8Array(size);
  const rest: (readonly number[])[] = [];
  const lower: (readonly number[])[] = [];
  const upper: (readonly number[])[] = [];
  const fill: (readonly number[])[] = [];
  for (let step = 0; step < size; step++) {
    const pivot = choose(neighbours, done, late, last);
    done[pivot] = 1;
    order[step] = pivot;
    const left = neighbours[pivot]!.filter((other) => done[other] === 0);
    for (const a of left) for (const b of left) if (a !== b && !neighbours[a]!.includes(b)) neighbours[a]!.push(b);
    for (const other of left) neighbours[other] = neighbours[other]!.filter((at) => at !== pivot);
    rest.push(left);
    lower.push(left.map((other) => place(other, pivot)));
    upper.push(left.map((other) => place(pivot, other)));
    const filled: number[] = [];
    left.forEach((a, i) => left.forEach((b, j) => filled.push(isSymmetric && j < i ? -1 : place(a, b))));
    fill.push(filled);
  }
  return {
    size,
    values: rows.length,
    order,
    diagonal,
    rest,
    lower,
    upper,
    fill,
    entry,
    windingsOfValue,
    own,
    columnsOfRow,
    valuesOfRow,
  };
}

function choose(neighbours: readonly (readonly number[])[], done: Uint8Array, late: Uint8Array, last: number): number {
  let best = -1;
  let least = Infinity;
  for (let i = 0; i < neighbours.length; i++) {
    if (done[i] === 1) continue;
    const weight = i === last ? Number.MAX_VALUE : neighbours[i]!.length + (late[i] === 1 ? neighbours.length : 0);
    if (weight < least) [best, least] = [i, weight];
  }
  return best;
}
