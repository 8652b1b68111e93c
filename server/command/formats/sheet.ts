/** The lists of the bench sheet as comma-separated values: figures bare, units in the heads. */
import { buyList, cutList, meterSheet, partsList, sleeveList, solderPlan, tapTest } from '../../../language/workshop/index.js';
import { cautions } from '../../../language/cautions.js';
import type { AnalysedCircuit } from '../../../language/circuit/model.js';
import { csvTable, type Table } from '../output/table.js';

export type SheetList = 'cut' | 'buy' | 'parts' | 'sleeves' | 'order' | 'meter' | 'tap';

export function sheetCsv(circuit: AnalysedCircuit, list: SheetList): string {
  return csvTable(tables[list](circuit));
}

const tables: Readonly<Record<SheetList, (circuit: AnalysedCircuit) => Table>> = {
  cut: (circuit) => ({
    heads: ['wire', 'kind', 'from', 'to', 'length_mm', 'strip_mm', 'each_batch', 'reckoned'],
    rows: cutList(circuit).flatMap(({ kind, cuts }) =>
      cuts.map((cut) => [
        cut.mark,
        kind,
        cut.from,
        cut.to,
        cut.length === undefined ? '' : tenths(cut.length * 1000),
        tenths(cut.strip * 1000),
        String(circuit.batch),
        cut.length === undefined ? 'measure in place' : cut.assumed ? 'yes' : 'no',
      ]),
    ),
  }),
  buy: (circuit) => ({
    heads: ['quantity', 'unit', 'item', 'values', 'used_as', 'note'],
    rows: buyList(circuit).map(({ quantity, unit, item, values, usedAs, note }) => [
      String(quantity),
      unit,
      item,
      values,
      usedAs.join(' '),
      note,
    ]),
  }),
  parts: (circuit) => ({
    heads: ['quantity', 'part', 'values', 'used_as'],
    rows: partsList(circuit).map(({ quantity, type, values, names }) => [String(quantity), type, values, names.join(' ')]),
  }),
  sleeves: (circuit) => ({
    heads: ['pieces', 'length_mm', 'over_mm', 'for', 'where'],
    rows: sleeveList(circuit).map(({ pieces, length, over, why, on }) => [
      String(pieces),
      tenths(length * 1000),
      tenths(over * 1000),
      why,
      on.join('; '),
    ]),
  }),
  order: (circuit) => ({
    heads: ['stage', 'step', 'kind', 'text', 'rule'],
    rows: [
      ...cautions({ battery: circuit.elements.some(({ kind }) => kind === 'battery') }).map((text) => [
        'Cautions',
        '',
        'caution',
        text,
        '',
      ]),
      ...solderPlan(circuit).stages.flatMap((stage) => [
        ...stage.steps.map(({ number, kind, text, rule }) => [stage.title, String(number), kind, text, rule]),
        ...stage.tests.map(({ text }) => [stage.title, '', 'test', text, '']),
      ]),
    ],
  }),
  meter: (circuit) => ({
    heads: ['setting', 'low', 'high', 'note', 'taken'],
    rows: meterSheet(circuit).rows.map(({ setting, low, high, note, taken }) => [setting, low, high, note, taken?.text ?? '']),
  }),
  tap: (circuit) => ({
    heads: ['setting', 'loud', 'quiet', 'hum'],
    rows: tapTest(circuit).map(({ setting, loud, quiet, hum }) => [setting, loud.join(' '), quiet.join(' '), hum]),
  }),
};

function tenths(value: number): string {
  return String(Math.round(value * 10) / 10);
}
