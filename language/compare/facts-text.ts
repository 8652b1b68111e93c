/** A circuit as sorted lines, one a fact: what a line-by-line comparison of texts needs to see what matters and nothing else. */
import { amount, counted, type LugId } from '../circuit/index.js';
import { lugById, partOfLug, type AnalysedCircuit, type Circuit, type Joint } from '../circuit/model.js';
import { factsOf } from '../checks/index.js';
import { itemAt } from '../collections.js';
import { heardAt, outputsOf, settingLabel } from '../electrics/index.js';
import { evaluate } from '../intent/index.js';
import { asideOf, type Aside } from './stated/aside.js';
import { unreadIn } from './stated/unread.js';
import { readingsOf } from './stated/records.js';
import type { Side } from './change.js';
import { expectationTexts } from './stated/expectation-texts.js';
import { readAt, responseAt, soundAt } from './heard/heard.js';
import { instrumentFacts } from './build/instrument.js';
import { given, leadsOf } from './build/parts.js';
import { looksOf } from './build/wires.js';

/** Instrument, parts, wires by the names of their ends, positions with their figures, expectations with their verdicts. Order and layout of the text leave no trace. */
export function factLines({ circuit, aside }: Pick<Side, 'circuit' | 'aside'>): readonly string[] {
  const parts = circuit.parts
    .filter(({ family, parent }) => !['cavity', 'plate', 'screen'].includes(family) && parent === undefined)
    .map((part) => {
      const ends = leadsOf(circuit, part).map((lug) => lugById(circuit, lug).label);
      return `part ${part.name} (${given(part)})${ends.length === 0 ? '' : `, ${ends.sort().join(' to ')}`}`;
    });
  const wires = circuit.joints.filter(
    ({ kind, a, b }) => kind === 'wire' || (kind === 'solder' && !isLead(circuit, a) && !isLead(circuit, b)),
  );
  return [
    ...instrumentFacts(circuit),
    ...parts.sort(),
    ...wires.map((joint) => wireLine(circuit, joint)).sort(),
    ...readingsOf(circuit)
      .map(({ text }) => text)
      .sort(),
    ...recordLines(circuit),
    ...allowLines(circuit, asideOf(aside)),
    ...unreadIn(circuit, 'new').map(
      ({ errors, message }) => `not read: ${counted(errors, 'error')} in the text, first: ${message}`,
    ),
    ...(circuit.isLibrary ? [] : [...positionLines(circuit), ...expectationLines(circuit)]),
  ];
}

function recordLines({ record }: Circuit): readonly string[] {
  if (record === undefined) return [];
  const { number, by, date, changed, before, done } = record;
  return Object.entries({ number, by, date, changed, before, done }).flatMap(([name, value]) =>
    [value ?? []].flat().map((text) => `record ${name}: ${text}`),
  );
}

function allowLines(circuit: AnalysedCircuit, { by }: Aside): readonly string[] {
  return circuit.allows
    .map((allow) => {
      const on = allow.on === undefined ? '' : ` on ${allow.on}`;
      return `allow ${allow.rule}${on} “${allow.why}”: sets aside ${counted(by.get(allow)?.length ?? 0, 'finding')}`;
    })
    .sort();
}

function isLead(circuit: Circuit, lug: LugId): boolean {
  return partOfLug(circuit, lug).inPlace;
}

function wireLine(circuit: Circuit, joint: Joint): string {
  const ends = [joint.a, joint.b].map((lug) => lugById(circuit, lug).label).sort();
  const looks = looksOf(joint);
  return `${joint.kind} ${ends.join(' to ')}${looks === '' ? '' : `, ${looks}`}`;
}

function positionLines(circuit: AnalysedCircuit): readonly string[] {
  const outputs = outputsOf(circuit);
  if (outputs.length < 2) return positionsAt(circuit, '');
  return outputs.flatMap(({ tip }) => positionsAt(heardAt(circuit, tip), `at ${lugById(circuit, tip).label}`));
}

function positionsAt(circuit: AnalysedCircuit, place: string): readonly string[] {
  return factsOf(circuit)
    .settings()
    .map((setting) => {
      const at = { circuit, setting };
      const sound = soundAt(at);
      const reads = readAt(at);
      const { peak, levelDb } = responseAt(at);
      const heard = sound.silent
        ? []
        : [
            `hum ${sound.hum}`,
            peak === null ? 'no peak' : `peak ${amount(peak.hz, 'hertz')} ${peak.db.toFixed(1)} dB`,
            levelDb === null ? 'the coils cancel' : `level ${levelDb.toFixed(1)} dB`,
          ];
      const label = [place, settingLabel(circuit, setting)].filter((text) => text !== '').join(', ') || 'default';
      return `position ${label}: sounds ${sound.text}; ${[`reads ${reads === null ? 'open' : amount(reads, 'ohm')}`, ...heard].join('; ')}`;
    });
}

function expectationLines(circuit: AnalysedCircuit): readonly string[] {
  if (factsOf(circuit).unread.any) return [];
  return circuit.expectations
    .flatMap((line) => {
      const texts = expectationTexts(circuit, line);
      return evaluate(circuit, line).map(({ verdict }, index) => `${itemAt(texts, index)}: ${verdict}`);
    })
    .sort();
}
