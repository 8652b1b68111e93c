/** What the coils of an arrangement would deliver without anything passive beside them. */
import type { Circuit, ElementId } from '../../circuit/model.js';
import type { Expression } from './expression.js';
/** Share of its own voltage (0 …) that each coil would bring to the open ends of the arrangement by itself at a frequency. */
export declare function unloadedTransfers(circuit: Circuit, expression: Expression, hz: number): ReadonlyMap<ElementId, number>;
