/** table/: a table of wires, as a spreadsheet writes it, to the text of a circuit or to its wire statements. */
export { circuitOfTable, type ImportedCircuit, type ImportWish } from './circuit-text.js';
export { wiresOfTable, type PastedWires } from './wires-text.js';
export { readSeparated, type Cell, type Separator, type TableProblem, type TableRow } from './separated.js';
