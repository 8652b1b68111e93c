/** What changes of the instrument as a whole, and how parts and places are put into words. */
import { amount, BUILD_UNITS } from '../../circuit/index.js';
import { buildOf } from '../../workshop/index.js';
import type { AnalysedCircuit, BuildSetting, Circuit } from '../../circuit/model.js';
import type { SourceRange } from '../../source.js';
import { writeDistinct } from '../amounts.js';
import type { InstrumentChange } from '../change.js';

/** Title, batch, rig and shop settings; then cavities, plates and channels. */
export function compareInstruments(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  renamed: (text: string) => string,
): readonly InstrumentChange[] {
  const [old, now] = [facts(before), facts(after)];
  const changes = [...old].flatMap(([name, write]): InstrumentChange[] => {
    const other = now.get(name);
    if (other === undefined) return [];
    const [was, is] = writeDistinct((digits) => [write(digits), other(digits)]);
    return was === is ? [] : [{ kind: 'changed', name, says: `${name} ${was} becomes ${is}` }];
  });
  return [...changes, ...comparePlaces(before, after, renamed)];
}

/** `cable 400 pF`, a line each; then cavities, plates and channels. */
export function instrumentFacts(circuit: AnalysedCircuit): readonly string[] {
  const places = [...placesOf(circuit, (text) => text)].map(([name, { text }]) => `${name}${text === '' ? '' : `: ${text}`}`);
  const unsaid = circuit.strings === undefined ? ['scale', 'tuning'] : [];
  const given = (name: string): boolean =>
    !unsaid.includes(name) && (!name.startsWith('build ') || Object.hasOwn(circuit.build ?? {}, name.slice(6)));
  const lines = [...facts(circuit)].filter(([name]) => given(name)).map(([name, write]) => `${name} ${write(3)}`);
  return [...lines, ...places.sort()];
}

type Write = (digits: number) => string;

function facts(circuit: AnalysedCircuit): ReadonlyMap<string, Write> {
  const { rig, batch, hand, title, strings } = circuit;
  const habits = Object.entries(buildOf(circuit).settings).filter(([name]) => name !== 'shielded-capacitance');
  const shop = habits.map(([name, value]): [string, Write] => {
    const unit = BUILD_UNITS[name as BuildSetting];
    return [name, (digits) => amount(unit === 'percent' ? value * 100 : value, unit, digits)];
  });
  return new Map<string, Write>([
    ['title', () => `“${title ?? ''}”`],
    ['batch', () => String(batch)],
    ['hand', () => hand],
    ['scale', (digits) => (strings === undefined ? 'none' : amount(strings.scale, 'metre', digits))],
    [
      'tuning',
      () => (strings === undefined || strings.tuning.length === 0 ? 'none' : strings.tuning.map(({ name }) => name).join(' ')),
    ],
    ['cable', (digits) => amount(rig.cable, 'farad', digits)],
    ['input', (digits) => amount(rig.input, 'ohm', digits)],
    ['capacitance of the input', (digits) => amount(rig.inputCapacitance ?? 0, 'farad', digits)],
    ['capacitance of shielded wire a metre', (digits) => amount(circuit.build?.['shielded-capacitance'] ?? 0, 'farad', digits)],
    ...shop.map(([name, write]) => [`build ${name}`, write] as [string, Write]),
  ]);
}

interface Place {
  readonly text: string;
  readonly range: SourceRange;
}

function comparePlaces(before: Circuit, after: Circuit, renamed: (text: string) => string): readonly InstrumentChange[] {
  const [old, now] = [placesOf(before, renamed), placesOf(after, (text) => text)];
  return [...new Set([...old.keys(), ...now.keys()])].flatMap((name): InstrumentChange[] => {
    const [was, is] = [old.get(name), now.get(name)];
    if (was?.text === is?.text) return [];
    const ranges = { ...(was === undefined ? {} : { before: was.range }), ...(is === undefined ? {} : { after: is.range }) };
    if (is === undefined) return [{ kind: 'gone', name, says: `${name} is gone`, ...ranges }];
    if (was === undefined) return [{ kind: 'new', name, says: `new ${name}${is.text === '' ? '' : `, ${is.text}`}`, ...ranges }];
    return [{ kind: 'changed', name, says: `${name}: ${was.text || 'plain'} becomes ${is.text || 'plain'}`, ...ranges }];
  });
}

function placesOf(circuit: Circuit, renamed: (text: string) => string): ReadonlyMap<string, Place> {
  const metres = (value: number | undefined, word: string): string[] =>
    value === undefined ? [] : [`${word}${amount(value, 'metre')}`];
  const places: [string, Place][] = [
    ...circuit.cavities.map(({ name, shielded, depth, range }): [string, Place] => [
      `cavity ${name}`,
      { text: [...(shielded ? ['shielded'] : []), ...metres(depth, 'depth ')].join(', '), range },
    ]),
    ...circuit.channels.map(({ from, to, length, bore, range }): [string, Place] => [
      `channel ${[from, to].sort().join(' to ')}`,
      { text: [...metres(length, ''), ...metres(bore, 'bore ')].join(', '), range },
    ]),
    ...circuit.plates.map(({ name, cavity, metal, shielded, thick, size, range }): [string, Place] => [
      `plate ${name}`,
      {
        text: [
          `in ${cavity}`,
          ...(metal ? ['metal'] : []),
          ...(shielded ? ['shielded'] : []),
          ...metres(thick, 'thick '),
          ...(size === undefined ? [] : [`${amount(size.width, 'metre')} × ${amount(size.height, 'metre')}`]),
        ].join(', '),
        range,
      },
    ]),
  ];
  return new Map(places.map(([name, place]) => [renamed(name), place]));
}
