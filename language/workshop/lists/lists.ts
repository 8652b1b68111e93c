/** Cut list, heat-shrink and parts list: what is laid out before the iron is lit. */
import { amount } from '../../circuit/index.js';
import { millimetres } from '../../checks/index.js';
import { farEnd, leadEnd, type Part, type Property } from '../../circuit/model.js';
import { append } from '../../collections.js';
import type { Build } from '../build.js';
import { spliceLength, type Run } from '../places/runs.js';
import { pieceLength, pieceMark, spliceKind, wireKind } from '../wording.js';
import { sleevePieces } from '../plan/sleeves.js';

/** One piece of wire to cut, for one instrument. Lengths in metres; absent: measured in place. */
export interface Cut {
  /** The stretches of the piece: more than one only of a bare wire that lies on several lugs; none of a piece that lengthens a part's own lead. */
  readonly runs: readonly Run[];
  readonly mark: string;
  readonly from: string;
  readonly to: string;
  /** Lugs on which it lies on its way. */
  readonly over: readonly string[];
  readonly length?: number;
  readonly assumed: boolean;
  /** Insulation to take off at each end; 0 of bare wire. */
  readonly strip: number;
}

/** Wires alike, with the length that the batch takes of them. */
export interface CutGroup {
  readonly kind: string;
  readonly cuts: readonly Cut[];
  /** For the whole batch; without what is measured in place. */
  readonly total: number;
  readonly unmeasured: number;
}

/** Wires off the reel by colour and gauge, in the order of the text. Of the leads that come with a part, what lengthens those that are too short. */
export function cutList(build: Build): readonly CutGroup[] {
  const { strip } = build.settings;
  const groups = new Map<string, Cut[]>();
  for (const { kind: itemKind, run, runs, ends } of build.work.items) {
    if (itemKind === 'lead') for (const cut of spliceCuts(build, run)) append(groups, spliceKind(build, run), cut);
    if (itemKind !== 'wire') continue;
    const kind = wireKind(build, run);
    const length = pieceLength(runs);
    const cut: Cut = {
      runs,
      mark: pieceMark(runs),
      from: build.label(run.joint.a),
      to: build.label((runs.at(-1) ?? run).joint.b),
      over: ends.filter(({ side }) => side === 'pass').map(({ lug }) => build.label(lug)),
      assumed: runs.some(({ assumed }) => assumed),
      strip: run.joint.bare ? 0 : strip,
      ...(length === undefined ? {} : { length }),
    };
    append(groups, kind, cut);
  }
  return [...groups].map(([kind, cuts]) => ({
    kind,
    cuts,
    total: build.count * cuts.reduce((sum, { length }) => sum + (length ?? 0), 0),
    unmeasured: build.count * cuts.filter(({ length }) => length === undefined).length,
  }));
}

/** The piece that lengthens an own lead, where it is too short. */
function spliceCuts(build: Build, run: Run): readonly Cut[] {
  const length = spliceLength(build, run);
  if (length === undefined) return [];
  const end = leadEnd(build, run.joint) ?? run.joint.a;
  return [
    {
      runs: [],
      mark: run.mark,
      from: `the end of ${run.mark}`,
      to: build.label(farEnd(run.joint, end)),
      over: [],
      length,
      assumed: run.route.known && run.route.pieces.some(({ assumed }) => assumed),
      strip: build.settings.strip,
    },
  ];
}

/** Own leads with what they have and what their way takes. */
export interface OwnLead {
  readonly mark: string;
  readonly from: string;
  readonly to: string;
  readonly kind: string;
  readonly has?: number;
  readonly needs?: number;
  readonly verdict: string;
}

export function ownLeads(build: Build): readonly OwnLead[] {
  return build.runs
    .filter((run) => run.ownLead)
    .map((run) => {
      const { length, needed } = run;
      const splice = spliceLength(build, run);
      const verdict =
        length === undefined
          ? 'length not given: measure it'
          : needed === undefined
            ? 'route not given: lay it and see'
            : splice !== undefined
              ? `too short: splice on ${millimetres(splice)}`
              : length < needed
                ? 'reaches with less than the usual slack'
                : 'reaches';
      return {
        mark: run.mark,
        from: build.label(run.joint.a),
        to: build.label(run.joint.b),
        kind: wireKind(build, run),
        verdict,
        ...(length === undefined ? {} : { has: length }),
        ...(needed === undefined ? {} : { needs: needed }),
      };
    });
}

/** Heat-shrink of one size, counted for the batch. */
export interface SleeveGroup {
  readonly why: string;
  readonly length: number;
  readonly over: number;
  readonly pieces: number;
  readonly on: readonly string[];
}

export function sleeveList(build: Build): readonly SleeveGroup[] {
  const groups = new Map<string, SleeveGroup>();
  for (const { why, length, over, on } of sleevePieces(build)) {
    const key = `${why} ${length} ${over}`;
    const before = groups.get(key);
    groups.set(key, { why, length, over, pieces: (before?.pieces ?? 0) + build.count, on: [...(before?.on ?? []), on] });
  }
  return [...groups.values()];
}

/** Parts alike. */
export interface PartGroup {
  readonly type: string;
  /** Values and words given to it: `250 k, audio`. */
  readonly values: string;
  readonly names: readonly string[];
  /** For the batch, spares included. */
  readonly quantity: number;
}

/** What is ordered of one kind. */
export interface BuyRow {
  /** Pieces, or metres of wire and tube; metres in whole decimetres, rounded up. Absent where the text cannot know it: a blank to fill in. */
  readonly quantity?: number;
  readonly unit: 'piece' | 'metre' | 'square metre';
  readonly item: string;
  readonly values: string;
  /** Names of parts, plates and cavities, marks of wires. */
  readonly usedAs: readonly string[];
  /** What the figure leaves out. */
  readonly note: string;
}

/** What is ordered. Metal that is there already (bridge, cavity paint, screens), splices and plates are no parts to order. */
export function partsList(build: Build): readonly PartGroup[] {
  const { spares } = build.settings;
  const groups = new Map<string, { type: string; values: string; names: string[] }>();
  for (const part of build.parts) {
    if (!isOrdered(part)) continue;
    const values = valuesOf(part);
    const key = `${part.type}\n${values}`;
    const group = groups.get(key) ?? { type: part.type, values, names: [] };
    group.names.push(part.name);
    groups.set(key, group);
  }
  return [...groups.values()].map((group) => ({ ...group, quantity: group.names.length * build.count + spares }));
}

function isOrdered(part: Part): boolean {
  if (['cavity', 'plate', 'screen', 'assembly'].includes(part.family)) return false;
  return !part.ancestry.includes('bridge-ground') && !part.ancestry.includes('junction');
}

/** Properties that say what to buy; those that only say how it is wired or where it rests do not. */
const passedOver = new Set([
  'turn',
  'rest',
  'seen',
  'lugs',
  'positions',
  'lead',
  'output',
  'insulated',
  'from-bridge',
  'aperture',
  'mid',
  'end',
  'share',
  'hole',
]);

function valuesOf(part: Part): string {
  return Object.entries(part.properties)
    .filter(([name]) => !passedOver.has(name))
    .map(([name, property]) => valueOf(name, property))
    .filter((text) => text !== '')
    .join(', ');
}

function valueOf(name: string, property: Property): string {
  if ('words' in property)
    return name === 'taper' && property.words.some((word) => word.endsWith('%')) ? 'measured taper' : property.words.join(' ');
  if (!property.known) return `${name} not known`;
  if (property.unit === 'metre') return property.range === undefined ? '' : `${name} ${Math.round(property.value * 1e4) / 10} mm`;
  if (property.unit === 'percent') return property.range === undefined ? '' : `${name} ${property.value} %`;
  if (property.unit === 'awg' || property.unit === 'count')
    return property.range === undefined ? '' : `${name} ${property.value}`;
  const text = amount(property.value, property.unit);
  return saidByName.has(name) ? `${name} ${text}` : text;
}

/** What another value of the same unit could be taken for. */
const saidByName = new Set(['loss', 'eddy-resistance', 'resonance', 'resonance-load']);
