/** `lugwork fit`: the values of a pickup from curves that were measured on it. */
import { resolve } from 'node:path';
import { fitPickup, readMeasured, type Curve, type Fit, type ValueName } from '../../../language/fit/index.js';
import { parseValue, valueProblem, type ValueUnit } from '../../../language/grammar/index.js';
import { oneLine } from '../../../language/escape.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { fitJson, fitSvg, fitText, type FitShown } from '../formats/fit.js';
import { forceOption, outputOption, writeResult } from '../output/output.js';
import { choice } from '../options.js';
import { readText, uriOf } from '../reading/reading.js';

/** A winding has less; what is more belongs to a cable that nobody stated. */
const mostOfAWinding = 400e-12;

export const fit: Command = {
  name: 'fit',
  operands: 'MEASURED.csv…',
  arity: [1, 8],
  summary: 'find the values of a pickup from a measured impedance or response',
  details: [
    'The first row names the columns: `hz,db` for a response, `hz,ohm,deg` for an impedance, degrees as the angle. A response is the voltage at the lead, with the cable and the input that were on it; its level does not matter. With several files all are fitted at once.',
    'Found are the resistance, the inductance, the capacitance of the winding and the loss, and where the data call for it the inductance that eddy currents short, with its resistance. One response alone does not tell inductance and capacitance apart: state the resistance, measure again with another capacitor across the pickup, or measure the impedance. A value that the data leave open is taken from the usual range, and marked.',
  ],
  options: [
    {
      name: 'cable',
      value: '"500pF, …"',
      summary: 'capacitance that was across the pickup, one for all files or one for each; none by default',
    },
    { name: 'input', value: '"1M, …"', summary: 'resistance that was across the pickup, likewise; none by default' },
    { name: 'resistance', value: 'OHM', summary: 'the resistance as the meter reads it' },
    { name: 'name', value: 'NAME', summary: 'name of the part; pickup by default' },
    { name: 'format', choices: ['text', 'json', 'svg'], summary: 'output format' },
    outputOption,
    forceOption,
  ],
  examples: [
    'lugwork fit impedance.csv --name neck',
    'lugwork fit alone.csv with-1nF.csv --cable "470pF, 1.47nF" --input 1M --resistance 6.3k --format svg > neck.svg',
  ],

  run(call, host) {
    const loads = loadsOf(call);
    const curves = call.operands.map((operand, index) => curveOf(operand, loads(index), host));
    const resistance = valueOf('resistance', 'ohm', call.values.get('resistance'));
    const stated: Partial<Record<ValueName, number>> = resistance === undefined ? {} : { resistance };
    const found = fitPickup(curves, stated);
    const shown: FitShown = { name: nameOf(call), fit: found, curves, remarks: remarksOn(found, curves, stated) };
    const format = choice(call, fit, 'format');
    const text = format === 'json' ? fitJson(shown) : format === 'svg' ? fitSvg(shown) : fitText(shown);
    const form = format === 'json' ? 'JSON' : format === 'svg' ? 'SVG' : 'plain text';
    writeResult({ text, sources: call.operands.map((operand) => uriOf(operand, host.cwd)), form }, call, host);
    return exit.good;
  },
};

function curveOf(operand: string, load: Curve['load'], host: Host): FitShown['curves'][number] {
  const read = readText(resolve(host.cwd, operand));
  if ('problem' in read) throw new CannotRun(`${operand}: ${read.problem}`);
  const measured = readMeasured(read.text);
  if (measured.kind === 'fault') throw new CannotRun(`${operand}:${measured.line}: ${measured.message}`);
  return { measured, load, file: operand };
}

/** The load of each file: the one that is stated, or the one in its place. */
function loadsOf(call: Call): (index: number) => Curve['load'] {
  const listed = (option: 'cable' | 'input', unit: ValueUnit): readonly number[] => {
    const words =
      call.values
        .get(option)
        ?.split(',')
        .map((word) => word.trim()) ?? [];
    if (words.length > 1 && words.length !== call.operands.length)
      throw new CannotRun(
        `--${option} takes one value, or as many as there are files, ${call.operands.length}, not ${words.length}`,
      );
    return words.flatMap((word) => valueOf(option, unit, word) ?? []);
  };
  const [cables, inputs] = [listed('cable', 'farad'), listed('input', 'ohm')];
  return (index) => ({ farad: cables[index] ?? cables[0] ?? 0, ohm: inputs[index] ?? inputs[0] ?? Infinity });
}

function valueOf(option: string, unit: ValueUnit, word: string | undefined): number | undefined {
  if (word === undefined) return undefined;
  const found = parseValue(word, unit);
  if (found === undefined) throw new CannotRun(`--${option}: ${valueProblem(word, unit) ?? `“${oneLine(word)}” is no value`}`);
  const isRight = found.unit === unit || found.unit === 'count';
  if (!isRight || !(found.value >= 0) || (unit === 'ohm' && found.value === 0))
    throw new CannotRun(
      `--${option} takes ${unit === 'ohm' ? 'ohms, such as 1M' : 'a capacitance, such as 500pF'}, not “${oneLine(word)}”`,
    );
  return found.value;
}

function nameOf(call: Call): string {
  const name = call.values.get('name') ?? 'pickup';
  if (!/^[A-Za-z][\w-]*$/.test(name))
    throw new CannotRun(`--name: “${oneLine(name)}” is no name of a part; letters, digits and hyphens make one`);
  return name;
}

/** What the data say, what they leave open, and what would tell more. */
function remarksOn(found: Fit, curves: readonly Curve[], stated: Partial<Record<ValueName, number>>): readonly string[] {
  const remarks: string[] = [];
  const open = found.values.filter(({ origin }) => origin === 'usual').map(({ name }) => name);
  const isOneResponse = curves.length === 1 && curves[0]?.measured.kind === 'response';
  if (open.length > 0) {
    const asks = [
      ...(stated.resistance === undefined ? ['state --resistance as the meter reads it'] : []),
      'measure again with another capacitor across the pickup and name both files',
      'or measure the impedance',
    ];
    const why = isOneResponse ? 'One response does not tell inductance and capacitance apart. ' : '';
    remarks.push(`${why}The data leave open: ${open.join(', ')}. To find out, ${asks.join(', ')}.`);
  }
  if (curves.some(({ measured, load }) => measured.kind === 'response' && load.farad === 0 && load.ohm === Infinity))
    remarks.push(
      'Nothing is stated of what was on the pickup while its response was measured: --cable and --input say it. Without them the cable counts as part of the winding.',
    );
  if (found.pickup.loss === undefined) remarks.push('The data show no loss across the inductance.');
  if (found.pickup.capacitance > mostOfAWinding && !open.includes('capacitance'))
    remarks.push(
      'So much capacitance no winding has: a cable was on the pickup. State its capacitance with --cable, about 100 pF for each metre, and fit again.',
    );
  if (found.spreadDb > 0.5)
    remarks.push(
      'Measurement and fit differ by more than half a decibel: either the load is another, or the curve is not that of one pickup alone.',
    );
  return remarks;
}
