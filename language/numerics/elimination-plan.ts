/** The plan of a sparse elimination, as numbers alone. */

/**
 * The order of elimination (fewest neighbours first, the output last) and where every value lies. A matrix value `v` at frequency `f` of
 * a block lies at `v * count + f`, so each step of the elimination is one run over a row of numbers. Where the matrix is symmetric, as it
 * is without an amplifier stage, each pair of places is one value.
 */
export interface Plan {
  readonly size: number;
  /** Values in all; the first `own` of them are more than fill-in. */
  readonly values: number;
  readonly own: number;
  /** Unknowns in the order in which they are eliminated. */
  readonly order: Int32Array;
  /** Value of each diagonal, by unknown. */
  readonly diagonal: Int32Array;
  /** Per step, the unknowns left that its pivot touches. */
  readonly rest: readonly (readonly number[])[];
  /** Per step: value (i, pivot) and value (pivot, i) of each unknown `i` in `rest`. */
  readonly lower: readonly (readonly number[])[];
  readonly upper: readonly (readonly number[])[];
  /** Per step: value (i, j) for each pair in `rest`, row by row; −1 where its mirror image is used. */
  readonly fill: readonly (readonly number[])[];
  /** Value of each entry of the system; −1 where its mirror image is used. */
  readonly entry: Int32Array;
  /** Per value that is more than fill-in: the windings whose admittance it holds. */
  readonly windingsOfValue: readonly (readonly { readonly winding: number; readonly sign: 1 | -1 }[])[];
  /** Values of each row apart from its diagonal, and their columns. */
  readonly valuesOfRow: readonly (readonly number[])[];
  readonly columnsOfRow: readonly (readonly number[])[];
}
