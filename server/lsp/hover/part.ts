/** Hover on a part: its values, what it loads and where it is heard, or what it does. */
import type { Steps } from '../../../language/steps.js';
import type { Analysis } from '../../../language/analysis.js';
import {
  elementById,
  lugById,
  partById,
  type AnalysedCircuit,
  type Part,
  type Property,
} from '../../../language/circuit/index.js';
import { capacitorSteps, enumerate, pickupSteps, potLoadSteps, settingLabel } from '../../../language/electrics/index.js';
import { escapeMarkdown } from '../../../language/escape.js';
import { departureText, joinedTo, lugsText, matchPart, roleText, rolesOfPart } from '../../../language/roles/index.js';
import { coreRows, resonanceRows } from './core.js';
import { code, codes, paragraphs, plain, table } from './markdown.js';
import { peakText, quantityText } from './figures.js';
import { positionRows } from './position.js';
import { codesOf } from './value.js';

/** Of more pickups than this the load of a pot is not worked out one by one. */
const mostLoaded = 12;

export function* partHover(circuit: AnalysedCircuit, part: Part, analysis: Analysis): Steps<string> {
  const rows: [string, string][] = [[code(part.name), part.untyped === true ? `${part.type} (unknown)` : code(part.type)]];
  rows.push(...roles(circuit, part), ...practice(circuit, part), ...values(part), ...(yield* does(circuit, part, analysis)));
  const lugs = part.lugs.map((id) => lugById(circuit, id).name);
  if (lugs.length > 1) rows.push(['lugs', codes(lugs, 16)]);
  const place = [
    part.plate === undefined ? '' : `on ${code(part.plate)}`,
    part.cavity === undefined ? '' : `in ${code(part.cavity)}`,
  ];
  if (place.some((one) => one !== '')) rows.push(['lies', place.filter((one) => one !== '').join(', ')]);
  const device = circuit.switches.find((one) => one.part === part.id && one.rest === undefined);
  const heading = ['position', 'sounds', 'reads', 'peak'];
  const positions = device === undefined ? '' : table([heading, ...(yield* positionRows(circuit, device, analysis))]);
  return paragraphs(part.doc === undefined ? undefined : plain(part.doc), table(rows), positions);
}

/** What it is for, and why that is believed. */
function roles(circuit: AnalysedCircuit, part: Part): [string, string][] {
  return rolesOfPart(circuit, part.id).flatMap((role): [string, string][] => {
    const lugs = lugsText(circuit, role);
    const words = `${roleText(circuit, role)}${lugs === '' ? '' : `: ${lugs}`}`;
    const because =
      role.confidence === 'stated' ? 'stated' : `${role.confidence === 'weak' ? 'perhaps: ' : ''}${role.evidence.join('; ')}`;
    return [
      ['for', escapeMarkdown(words)],
      ['because', escapeMarkdown(because)],
    ];
  });
}

/** Departures of more lugs than this are another way of wiring, not a slip in the usual one. */
const mostDeparting = 2;

/** The usual way in which it is wired, or the one that it is near to, with the lugs that depart from that; departures only where the part's role is known well. */
function practice(circuit: AnalysedCircuit, part: Part): [string, string][] {
  const rows = matchPart(circuit, part.id).flatMap(({ pattern, lugs, departs, role }): [string, string][] => {
    if (departs.length === 0) return [['wired as usual', escapeMarkdown(pattern.says)]];
    const isSlip = departs.length <= mostDeparting && departs.length < lugs.length;
    if (!isSlip || role?.confidence === 'weak' || part.family === 'pickup') return [];
    const isDirected = role?.unit.kind !== 'pot' || role.word === 'volume';
    const ways = departs.map((one) => {
      const to = joinedTo(circuit, one.lug);
      return departureText(lugById(circuit, one.lug).label, { ...one, to }, isDirected);
    });
    return [['departs from', escapeMarkdown(`${pattern.says} Here ${ways.join('; ')}.`)]];
  });
  // Tracks and poles that are wired alike are one row.
  return [...new Map(rows.map((row) => [row.join(), row])).values()];
}

/** Properties that say something: values, and words that were written or matter to the sound. */
function values(part: Part): [string, string][] {
  return Object.entries(part.properties).flatMap(([name, property]): [string, string][] => {
    const text = propertyText(property);
    return text === undefined || (property.range === undefined && silent.has(name)) ? [] : [[name, text]];
  });
}

/** Worth a line only where somebody wrote them. */
const silent: ReadonlySet<string> = new Set([
  'mid',
  'end',
  'rest',
  'turn',
  'output',
  'loss',
  'body',
  'spacing',
  'tolerance',
  'insulated',
  'voltage',
  'role',
]);

export function propertyText(property: Property): string | undefined {
  if ('words' in property) return property.words.length === 0 ? 'yes' : property.words.join(' ');
  const { unit, value, known } = property;
  if (!known) return 'not known yet';
  const codes = unit === 'ohm' || unit === 'farad' ? codesOf(value, unit) : undefined;
  return `${quantityText({ ...property, tolerance: 0 })}${codes === undefined ? '' : ` (${codes})`}`;
}

function* does(circuit: AnalysedCircuit, part: Part, analysis: Analysis): Steps<[string, string][]> {
  if (part.family === 'pickup') return yield* resonance(circuit, part, analysis);
  const rows: [string, string][] = [];
  const pickups = circuit.parts.filter(({ family }) => family === 'pickup').length;
  for (const shaft of circuit.shafts.filter((one) => one.part === part.id)) {
    rows.push(['does', escapeMarkdown((yield* analysis.effectSteps(circuit, shaft.id)).says)]);
    if (pickups > mostLoaded) continue;
    const loads = yield* potLoadSteps(circuit, shaft.id, (_, setting) => analysis.sound(circuit, setting));
    const shown = loads.filter(({ takes }) => takes >= 0.1).slice(0, 4);
    const load = shown.map(
      ({ pickup, takes }) => `${takes.toFixed(1)} dB off the peak of ${code(partById(circuit, pickup).name)}`,
    );
    if (load.length > 0) rows.push(['load', load.join(', ')]);
  }
  if (rows.length > 0) return rows;
  for (const id of part.elements) {
    const answer = yield* capacitorSteps(circuit, id);
    if (answer === undefined) continue;
    rows.push(['does', escapeMarkdown(answer.says)]);
    const where = settingLabel(circuit, answer.setting);
    if (where !== '' && answer.role !== 'none') rows.push(['at', code(where)]);
  }
  return rows;
}

function* resonance(circuit: AnalysedCircuit, part: Part, analysis: Analysis): Steps<[string, string][]> {
  const answer = yield* pickupSteps(circuit, part.id, (_, setting) => analysis.sound(circuit, setting));
  if (answer === undefined) return [];
  const { heard, settings } = yield* whereHeard(circuit, part, analysis);
  return [
    ...resonanceRows(part),
    ['peak alone', peakText(answer.alone)],
    ['peak on the lead', peakText(answer.onLead)],
    ...coreRows(circuit, part.elements, answer.onLead.peak),
    ...(answer.inPlace === undefined ? [] : [['peak in place', peakText(answer.inPlace.response)] as [string, string]]),
    ['heard', heard.length === 0 ? 'in no position' : heard.length === settings ? 'in every position' : `at ${codes(heard, 6)}`],
    ...(answer.approximate
      ? [['', 'coupling between its coils is ignored: figures for one coil are approximate'] as [string, string]]
      : []),
  ];
}

/** The settings in which a part is heard, by label, and how many there are in all; in steps of one solved setting each. */
function* whereHeard(
  circuit: AnalysedCircuit,
  part: Part,
  analysis: Analysis,
): Steps<{ readonly heard: readonly string[]; readonly settings: number }> {
  const { settings, group } = enumerate(circuit);
  const heard: string[] = [];
  let solved = 0;
  for (const [index, setting] of settings.entries()) {
    const { heard: coils } = analysis.sound(circuit, setting);
    if (coils.some(({ coil }) => elementById(circuit, coil).part === part.id))
      heard.push(settingLabel(circuit, setting) || 'always');
    // Groups are numbered as they come, and settings of one group are solved together.
    if (group[index] !== solved) continue;
    solved++;
    yield;
  }
  return { heard, settings: settings.length };
}
