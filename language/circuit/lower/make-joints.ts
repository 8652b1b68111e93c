/** Wires, solder joints, screens, and the leads of parts that are soldered where they stand. */
import type { DottedName, PartStatement, SolderStatement, WireStatement } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import { report, type GivenNumber, type Lowering } from './lowering-state.js';
import type { Instance } from './builder.js';
import { makePseudoPart } from './instantiate.js';
import { lugById, type Family, type Joint, type LugId, type WireLooks } from '../model.js';
import { readNumbers } from './number-wires.js';
import { ownLead, withLead } from './own-lead.js';
import { rangeOn, type Origin } from '../ranges.js';
import { lugNamedBy, type FoundLug } from './resolve.js';
import { PLAIN_WIRE, readLooks } from '../types/wire-looks.js';

/** `wire A to B to C white 22awg shielded screen to D`: each `to` is one run, what follows holds for every run. */
export function makeWire(state: Lowering, statement: WireStatement, origin: Origin): void {
  const looks = readLooks(statement.options, origin, state.reports.of(origin.uri).problems, 'wire');
  const numbers = readNumbers(state, statement, origin);
  const ends = namedEnds(state, statement.ends, origin);
  const isOnPickup = ends.some((end) => end !== undefined && familyAt(state.builder, end.lug) === 'pickup');
  // The braid of a pickup's lead is one of the pickup's own lugs where the text doesn't say that it goes elsewhere.
  const isBraid = looks.make?.includes('braided') === true && !isOnPickup;
  const screened = looks.shielded || statement.screens.length > 0 || isBraid;
  const screens = namedEnds(state, statement.screens, origin).filter((end) => end !== undefined);
  makeRuns(
    state,
    ends,
    statement,
    { kind: 'wire', looks: screened ? { ...looks, shielded: true } : looks, screens, numbers },
    origin,
  );
}

function familyAt({ lugs, instances }: Lowering['builder'], lug: LugId): Family | undefined {
  const part = lugs[lug]?.part;
  return part === undefined ? undefined : instances[part]?.part.family;
}

/** `solder A to B`: a lug bent onto another. */
export function makeSolder(state: Lowering, statement: SolderStatement, origin: Origin): void {
  const ends = namedEnds(state, statement.ends, origin);
  makeRuns(state, ends, statement, { kind: 'solder', looks: PLAIN_WIRE, screens: [] }, origin);
}

/** `part c : capacitor 22nF from A to B`: each of the parts has its first lead on A and its second on B. */
export function makePlaced(state: Lowering, statement: PartStatement, instances: readonly Instance[], origin: Origin): void {
  if (statement.ends === undefined) return;
  const [from, to] = [lugNamedBy(state, statement.ends.a, origin), lugNamedBy(state, statement.ends.b, origin)];
  const statementRange = rangeOn(origin, statement.range);
  const number = state.builder.statement();
  for (const instance of instances) {
    const leads = instance.type === undefined ? (['a', 'b'] as const) : instance.type.leads;
    if (leads === undefined) {
      const form = statement.ends.form === 'from' ? 'from … to …' : 'across … and …';
      const range = rangeOn(origin, { start: statement.ends.a.range.start, end: statement.ends.b.range.end });
      report(
        state,
        'form',
        range,
        `${instance.part.name} does not have two leads, so it can’t be placed ${form}: wire its lugs one by one`,
      );
      continue;
    }
    const { nameRange } = instance.part;
    const [first, second] = leads;
    for (const [end, name, isFirst] of [
      [from, first, true],
      [to, second, false],
    ] as const) {
      if (end === undefined) continue;
      const lead = state.builder.lug(instance, name);
      const [a, b, aRange, bRange] = isFirst ? [end.lug, lead, end.range, nameRange] : [lead, end.lug, nameRange, end.range];
      state.builder.lugs[lead]?.uses.push(nameRange);
      state.builder.join(a, b, {
        kind: 'solder',
        statement: number,
        looks: PLAIN_WIRE,
        range: end.range,
        aRange,
        bRange,
        statementRange,
      });
    }
  }
}

function namedEnds(state: Lowering, names: readonly DottedName[], origin: Origin): (FoundLug | undefined)[] {
  return names.map((name) => lugNamedBy(state, name, origin));
}

/** How the runs of one statement are made: their kind and looks, and where their screens are tied. */
interface RunLooks {
  readonly kind: 'wire' | 'solder';
  readonly looks: WireLooks;
  readonly screens: readonly FoundLug[];
  /** Of its pieces, the first one's first. */
  readonly numbers?: readonly (GivenNumber | undefined)[];
}

/** One joint for each run between two ends that are known. */
function makeRuns(
  state: Lowering,
  ends: readonly (FoundLug | undefined)[],
  statement: WireStatement | SolderStatement,
  { kind, looks, screens, numbers = [] }: RunLooks,
  origin: Origin,
): void {
  const number = state.builder.statement();
  const statementRange = rangeOn(origin, statement.range);
  for (let i = 1; i < ends.length; i++) {
    const [a, b] = [ends[i - 1], ends[i]];
    if (a === undefined || b === undefined) continue;
    const range: SourceRange = { uri: origin.uri, start: a.range.start, end: b.range.end };
    const places = { statement: number, range, aRange: a.range, bRange: b.range, statementRange };
    const lead = kind === 'wire' ? ownLead(state.builder, a.lug, b.lug) : undefined;
    const joint = state.builder.join(a.lug, b.lug, { kind, looks: withLead(looks, lead), ...places });
    joint.ownLead = lead !== undefined;
    const own = numbers[i - 1];
    if (own !== undefined) {
      joint.number = own.number;
      state.numbers.set(joint, own);
    }
    if (looks.shielded) joint.screen = makeScreen(state, [a, b], screens, places);
  }
}

/** The screen of a run between two lugs: a metal thing, tied where the wire says. */
function makeScreen(
  state: Lowering,
  run: readonly FoundLug[],
  screens: readonly FoundLug[],
  { statement, range, statementRange }: Pick<Joint, 'statement' | 'range' | 'statementRange'>,
): LugId {
  const { builder } = state;
  const name = `screen of ${run.map(({ lug }) => lugById(builder, lug).label).join(' to ')}`;
  const instance = makePseudoPart(state, { name, family: 'screen', lug: 'screen', range: statementRange, nameRange: range });
  const screen = builder.lug(instance, 'screen');
  for (const end of screens) {
    builder.join(screen, end.lug, {
      kind: 'screen',
      statement,
      looks: PLAIN_WIRE,
      range: end.range,
      aRange: range,
      bRange: end.range,
      statementRange,
    });
  }
  return screen;
}
