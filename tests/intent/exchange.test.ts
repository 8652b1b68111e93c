/** Lines of now with the pots turned tell any two parts of one kind apart whose exchange would be heard. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { enumerate, levelAt, withRotation, type Setting } from '../../language/electrics/index.js';
import { judgeExpectations, linesOfNow } from '../../language/intent/index.js';
import { circuitOf } from '../checks/harness.js';

const folders = ['../checks/correct/', '../../examples/'].map((folder) => new URL(folder, import.meta.url));
/** Two capacitors that a switch alone brings in, and two that a button does: no pot is turned. */
const withoutPots = (type: string): string => `type push-two : switch {
  lugs A0 A1 A2 frame
  positions "rest" "pressed"
  at "rest" joins A0 A1
  at "pressed" joins A0 A2
  rest "rest"
  metal frame
}
part bridge : single-coil 6.8k 2.8H 115pF
part select : ${type}
part one : capacitor 4.7nF from select.A1 to output.sleeve
part two : capacitor 22nF from select.A2 to output.sleeve
part saddle : bridge-ground
part output : jack
wire bridge.hot to select.A0 to output.tip
wire bridge.ground to output.sleeve
wire saddle to output.sleeve
wire select.frame to output.sleeve
`;

const texts = folders.flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.lug') && !/two-files|no-2|house/.test(name))
    .map((name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const),
);

/** The declarations of a text, with what can be exchanged: `250k audio` of `part tone : pot 250k audio from …`. */
const declaration = /^part ([\w-]+) *: ([a-z0-9-]+) ((?:(?!from|across)[\w.]+ ?)+?)(?= from| across| \{|$)/gm;

function pairs(text: string): readonly (readonly [RegExpExecArray, RegExpExecArray])[] {
  const found = [...text.matchAll(declaration)] as RegExpExecArray[];
  return found.flatMap((one, index) =>
    found.slice(index + 1).flatMap((other) => (one[2] === other[2] && one[3] !== other[3] ? [[one, other] as const] : [])),
  );
}

function exchanged(text: string, [one, other]: readonly [RegExpExecArray, RegExpExecArray]): string {
  const put = (match: RegExpExecArray, values: string): string => `part ${match[1]!} : ${match[2]!} ${values}`;
  return text.replace(one[0], put(one, other[3]!)).replace(other[0], put(other, one[3]!));
}

/** The largest change of level that the exchange brings, pots at rest and each at half rotation and at its ends. */
function change(before: AnalysedCircuit, after: AnalysedCircuit): number {
  const turned = (setting: Setting): readonly Setting[] => [
    setting,
    ...before.shafts.flatMap(({ id }) => [0, 5, 10].map((at) => withRotation(setting, id, at))),
  ];
  const differences = enumerate(before)
    .settings.flatMap(turned)
    .flatMap((setting) =>
      [80, 300, 1000, 2500, 4500].map((hz) => {
        const [a = -200, b = -200] = [before, after].map((circuit) => levelAt(circuit, setting, hz) ?? undefined);
        return Math.max(a, b) < -60 ? 0 : Math.abs(a - b);
      }),
    );
  return Math.max(...differences);
}

/** A change of this many decibels is heard. */
const heard = 1;

test.each([
  ...texts,
  ['a switch without pots', withoutPots('mini-spdt')],
  ['a button without pots', withoutPots('push-two')],
] as const)('%s', (_, text) => {
  const plain = text.replace(/^expect .*$/gm, '').replace(/^allow .*$/gm, '');
  const found = pairs(plain);
  if (found.length === 0) return;
  const circuit = circuitOf(plain);
  const lines = linesOfNow(circuit, { turns: true }).join('\n');
  const missed = found.filter((pair) => {
    const other = exchanged(plain, pair);
    if (change(circuit, circuitOf(other)) < heard) return false;
    return judgeExpectations(circuitOf(`${other}\n${lines}\n`)).length === 0;
  });
  expect(missed.map(([one, other]) => `${one[1]!} and ${other[1]!}`)).toEqual([]);
});
