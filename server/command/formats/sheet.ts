/** The lists of the bench sheet as comma-separated values: figures bare, units in the heads. */
import {
  buyList,
  cutList,
  meterSheet,
  partsList,
  sleeveList,
  solderPlan,
  tapTest,
  type Build,
} from '../../../language/workshop/index.js';
import { cautions } from '../../../language/cautions.js';
import { csvTable, type Table } from '../output/table.js';

export type SheetList = 'cut' | 'buy' | 'parts' | 'sleeves' | 'order' | 'meter' | 'tap';

export function sheetCsv(build: Build, list: SheetList): string {
  return csvTable(tables[list](build));
}

const tables: Readonly<Record<SheetList, (build: Build) => Table>> = {
  cut: (build) => ({
    heads: ['wire', 'kind', 'from', 'to', 'length_mm', 'strip_mm', 'each_batch', 'estimated', 'over'],
    rows: cutList(build).flatMap(({ kind, cuts }) =>
      cuts.map((cut) => [
        cut.mark,
        kind,
        cut.from,
        cut.to,
        cut.length === undefined ? '' : tenths(cut.length * 1000),
        tenths(cut.strip * 1000),
        String(build.batch),
        cut.length === undefined ? 'measure in place' : cut.assumed ? 'yes' : 'no',
        cut.over.join(' '),
      ]),
    ),
  }),
  buy: (build) => ({
    heads: ['quantity', 'unit', 'item', 'values', 'used_as', 'note'],
    rows: buyList(build).map(({ quantity, unit, item, values, usedAs, note }) => [
      quantity === undefined ? '' : String(quantity),
      unit,
      item,
      values,
      usedAs.join(' '),
      note,
    ]),
  }),
  parts: (build) => ({
    heads: ['quantity', 'part', 'values', 'used_as'],
    rows: partsList(build).map(({ quantity, type, values, names }) => [String(quantity), type, values, names.join(' ')]),
  }),
  sleeves: (build) => ({
    heads: ['pieces', 'length_mm', 'over_mm', 'for', 'where'],
    rows: sleeveList(build).map(({ pieces, length, over, why, on }) => [
      String(pieces),
      tenths(length * 1000),
      tenths(over * 1000),
      why,
      on.join('; '),
    ]),
  }),
  order: (build) => ({
    heads: ['stage', 'step', 'kind', 'text', 'rule'],
    rows: [
      ...cautions({ battery: build.hasBattery }).map((text) => ['Cautions', '', 'caution', text, '']),
      ...solderPlan(build).stages.flatMap((stage) => [
        ...stage.steps.map(({ number, kind, text, rule }) => [stage.title, String(number), kind, text, rule]),
        ...stage.tests.map(({ text }) => [stage.title, '', 'test', text, '']),
      ]),
    ],
  }),
  meter: (build) => ({
    heads: ['setting', 'low', 'high', 'note', 'taken'],
    rows: meterSheet(build).rows.map(({ setting, low, high, note, taken }) => [setting, low, high, note, taken?.text ?? '']),
  }),
  tap: (build) => ({
    heads: ['setting', 'loud', 'quiet', 'hum'],
    rows: tapTest(build).map(({ setting, loud, quiet, hum }) => [setting, loud.join(' '), quiet.join(' '), hum]),
  }),
};

function tenths(value: number): string {
  return String(Math.round(value * 10) / 10);
}
