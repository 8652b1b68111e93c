/** From a syntax tree to the circuit: the one place where the order of the work stands. */
import { linesOf, type PartStatement, type Statement, type SyntaxProblem, type Tree } from '../../grammar/index.js';
import type { Finding, Fix, SourceRange } from '../../source.js';
import { finished, type Steps } from '../../steps.js';
import { bindArguments } from '../types/bind.js';
import { Builder, type Instance } from './builder.js';
import { usedFiles, type Sources, type UsedFiles } from '../files.js';
import { typeNamed, wirable } from '../types/find-type.js';
import { makePart } from './instantiate.js';
import { readInstrument, type Instrument } from './instrument.js';
import { giveName, recordUse, FileReports, report, reportMisspelling, type Lowering } from './lowering-state.js';
import { makeAllow, makeExpectation, makeMeasurement, makeRig, USUAL_RIG } from './make-claims.js';
import { makePlaced, makeSolder, makeWire } from './make-joints.js';
import { makeBuild } from './make-build.js';
import { actualsByName, laidOver, makeRecord, type Actual } from './make-record.js';
import { fillPlate, makeCavity, makeChannel, makePlaces, makePlate } from './make-places.js';
import { analysed, type AnalysedCircuit, type Circuit, type Rig, usualOutput } from '../model.js';
import { amount } from '../amount.js';
import { counted } from '../phrases.js';
import { textClaim, type Problem } from '../problems.js';
import { compareRanges, isMissing, rangeOn, type Origin } from '../ranges.js';
import { numberWires } from './number-wires.js';
import { Spellings } from './spellings.js';
import { standardTypes, TypeScope } from '../types/types.js';

/** Statements that neither wire nor declare anything. */
const ASIDE: ReadonlySet<string> = new Set<Statement['kind']>([
  'instrument',
  'channel',
  'place',
  'rig',
  'build',
  'record',
  'expect',
  'measured',
  'allow',
]);

const NO_OTHER_FILES: Sources = { tree: () => undefined };

/**
 * Makes the circuit of a text. Never throws: whatever can't be made is reported in `problems`, in trade words and with its place, and the rest is kept.
 * `sources` gives the trees of the files that the text uses; their parts, wires and expectations belong to the instrument. The standard
 * types are always there. Equal trees give equal circuits.
 */
export function lower(tree: Tree, sources: Sources = NO_OTHER_FILES): AnalysedCircuit {
  return finished(lowerSteps(tree, sources));
}

/** The same in steps of a few statements each. */
export function* lowerSteps(tree: Tree, sources: Sources = NO_OTHER_FILES): Steps<AnalysedCircuit> {
  const reports = new FileReports();
  const used = usedFiles(tree, sources, (uri) => reports.of(uri));
  const scope = new TypeScope(used.trees, (uri) => reports.of(uri), standardTypes(tree.uri));
  const statements = used.trees.flatMap((file) =>
    file.statements.map((statement) => ({ statement, origin: { uri: file.uri, line: statement.line } })),
  );
  const instrument = onlyInstrument(tree, used.trees, reports);
  const state: Lowering = {
    builder: new Builder(),
    numbers: new Map(),
    reports,
    scope,
    namedItems: new Map(),
    spellings: new Spellings(),
    hand: instrument.hand,
    ...(instrument.seen === undefined ? {} : { seen: instrument.seen }),
  };
  const types = scope.own();
  const build = onlyBuild(state, tree, statements);
  state.builder.pickupTolerance = build.build?.['pickup-tolerance'];
  const made = yield* makeAllParts(state, statements);
  if (instrument.strings !== undefined) checkPickupPlaces(state, instrument.strings.scale);
  const { cavities, channels, plates } = makeBody(state, statements);
  yield* makeJoints(state, statements, made);
  for (const { plate, statement, origin } of plates) fillPlate(state, statement, plate, origin);
  for (const { statement, origin } of statements) if (statement.kind === 'place') makePlaces(state, statement, origin);
  const claims = makeClaimed(state, statements);
  yield;
  const rig = onlyRig(state, tree, statements);
  const record = onlyRecord(state, tree);
  yield;
  state.builder.finish();
  numberWires(state, state.numbers);
  yield;
  return analysed({
    uri: tree.uri,
    batch: instrument.batch,
    hand: instrument.hand,
    seen: instrument.seen ?? 'front',
    ...builtBy(state.builder),
    ...claims,
    cavities,
    channels,
    plates: plates.map(({ plate }) => plate),
    rig,
    problems: problemsOf(tree, used, reports),
    aside: asideIn(used.trees),
    names: reports.names(),
    types: types.map((type) => type.info),
    files: used.files,
    isLibrary: !statements.some(({ statement }) => statement.kind === 'part'),
    ...(instrument.strings === undefined ? {} : { strings: instrument.strings }),
    ...(instrument.title === undefined ? {} : { title: instrument.title }),
    ...(instrument.doc === undefined ? {} : { doc: instrument.doc }),
    ...(instrument.titleRange === undefined ? {} : { titleRange: instrument.titleRange }),
    ...build,
    ...(record === undefined ? {} : { record }),
  });
}

/** The parts of every statement that makes some, with the values that were measured in their place. */
function* makeAllParts(state: Lowering, statements: readonly Placed[]): Steps<ReadonlyMap<Statement, Instance[]>> {
  const actuals = actualsByName(
    state,
    collect(statements, (statement, origin) => (statement.kind === 'actual' ? { statement, origin } : undefined)),
  );
  const made = new Map<Statement, Instance[]>();
  for (const { statement, origin } of statements) {
    if (statement.kind !== 'part') continue;
    made.set(statement, makeParts(state, statement, origin, actuals));
    yield;
  }
  for (const actual of actuals.values()) nameActual(state, actual);
  return made;
}

/** A pickup senses the string between bridge and nut. */
function checkPickupPlaces(state: Lowering, scale: number): void {
  for (const { part } of state.builder.instances) {
    if (part.family !== 'pickup') continue;
    for (const name of ['from-bridge', 'aperture']) {
      const found = part.properties[name];
      if (found === undefined || !('value' in found) || found.range === undefined || !(found.value > scale)) continue;
      report(
        state,
        'value',
        found.range,
        `${name} of ${part.name} is ${amount(found.value, 'metre')}, more than the scale of ${amount(scale, 'metre')}`,
      );
    }
  }
}

/** What the body is made of: cavities, the channels between them, the plates on them. */
function makeBody(state: Lowering, statements: readonly Placed[]) {
  return {
    cavities: collect(statements, (statement, origin) =>
      statement.kind === 'cavity' ? makeCavity(state, statement, origin) : undefined,
    ),
    channels: collect(statements, (statement, origin) =>
      statement.kind === 'channel' ? makeChannel(state, statement, origin) : undefined,
    ),
    plates: collect(statements, (statement, origin) => {
      const plate = statement.kind === 'plate' ? makePlate(state, statement, origin) : undefined;
      return plate === undefined || statement.kind !== 'plate' ? undefined : { plate, statement, origin };
    }),
  };
}

/** What the text claims of the circuit, and what it sets aside. */
function makeClaimed(state: Lowering, statements: readonly Placed[]): Pick<Circuit, 'expectations' | 'measurements' | 'allows'> {
  return {
    expectations: collect(statements, (statement, origin) =>
      statement.kind === 'expect' ? makeExpectation(state, statement, origin) : undefined,
    ),
    measurements: collect(statements, (statement, origin) =>
      statement.kind === 'measured' ? makeMeasurement(state, statement, origin) : undefined,
    ),
    allows: collect(statements, (statement, origin) =>
      statement.kind === 'allow' ? makeAllow(state, statement, origin) : undefined,
    ),
  };
}

function builtBy({
  instances,
  lugs,
  joints,
  elements,
  switches,
  shafts,
}: Builder): Pick<Circuit, 'parts' | 'lugs' | 'joints' | 'elements' | 'switches' | 'shafts' | 'jacks' | 'output'> {
  const parts = instances.map(({ part }) => part);
  const jacks = parts.filter(({ family }) => family === 'jack').map(({ id }) => id);
  const output = usualOutput({ parts, lugs, joints, jacks });
  return { parts, lugs, joints, elements, switches, shafts, jacks, ...(output === undefined ? {} : { output }) };
}

interface Placed {
  readonly statement: Statement;
  readonly origin: Origin;
}

function collect<T>(statements: readonly Placed[], make: (statement: Statement, origin: Origin) => T | undefined): T[] {
  return statements.map(({ statement, origin }) => make(statement, origin)).filter((item) => item !== undefined);
}

/** `part a, b : pot 250k audio`: one part for each name, alike. */
function makeParts(state: Lowering, statement: PartStatement, origin: Origin, actuals: ReadonlyMap<string, Actual>): Instance[] {
  const context = state.scope.contextOf(origin.uri);
  const type = wirable(typeNamed(statement.type, origin, context));
  const bindings = bindArguments(type, statement.values, statement.properties, {
    origin,
    problems: context.problems,
    names: context.names,
  });
  const seen = bindings.view.seen ?? state.seen;
  const range = rangeOn(origin, statement.range);
  const made: Instance[] = [];
  for (const word of statement.names) {
    const nameRange = rangeOn(origin, word.range);
    if (isMissing(word) || !giveName(state, word, { kind: 'part', nameRange })) continue;
    const actual = actuals.get(word.text);
    const instance = makePart(state, {
      name: word.text,
      typeName: statement.type.text,
      arguments: actual === undefined ? bindings : laidOver(state, type, bindings, actual),
      view: { ...bindings.view, ...(seen === undefined ? {} : { seen }) },
      inPlace: statement.ends !== undefined,
      range,
      nameRange,
      typeRange: rangeOn(origin, statement.type.range),
      ...(type === undefined ? {} : { type }),
      ...(statement.doc === undefined ? {} : { doc: statement.doc }),
    });
    if (instance === undefined) continue;
    state.namedItems.set(word.text, { kind: 'part', nameRange, instance });
    if (instance.coils.size > 0) state.spellings.addPickup(word.text);
    recordUse(state, { kind: 'part', range: nameRange, definition: nameRange, name: word.text, part: instance.part.id }, true);
    made.push(instance);
  }
  return made;
}

/** Wires, solder joints and leads in place, in the order of the text. */
function* makeJoints(state: Lowering, statements: readonly Placed[], made: ReadonlyMap<Statement, Instance[]>): Steps<void> {
  for (const [i, { statement, origin }] of statements.entries()) {
    if (i % 8 === 0) yield;
    if (statement.kind === 'wire') makeWire(state, statement, origin);
    else if (statement.kind === 'solder') makeSolder(state, statement, origin);
    else if (statement.kind === 'part') makePlaced(state, statement, made.get(statement) ?? [], origin);
  }
}

/** The text's own instrument statement; a second one is reported. Those of used files speak of those files, but a record is of the instrument that it uses. */
function onlyInstrument(tree: Tree, used: readonly Tree[], reports: FileReports): Instrument {
  const { problems } = reports.of(tree.uri);
  const [first, ...others] = tree.statements.filter((statement) => statement.kind === 'instrument');
  for (const other of others) {
    const range = rangeOn({ uri: tree.uri, line: other.line }, other.range);
    problems.add('form', range, 'this is a second title; a file describes one instrument');
  }
  if (first === undefined && tree.statements.some(({ kind }) => kind === 'record')) {
    for (const { uri, statements } of used) {
      const shared = statements.find((statement) => statement.kind === 'instrument');
      if (shared !== undefined) return readInstrument(shared, { uri, line: shared.line }, reports.of(uri).problems);
    }
  }
  return readInstrument(first, { uri: tree.uri, line: first?.line ?? 0 }, problems);
}

/** The text's own record; a second one is reported. */
function onlyRecord(state: Lowering, tree: Tree): Circuit['record'] {
  const [first, ...others] = tree.statements.filter((statement) => statement.kind === 'record');
  for (const { line, range } of others)
    report(
      state,
      'form',
      rangeOn({ uri: tree.uri, line }, range),
      'this is a second record; a file is the record of one instrument',
    );
  return first === undefined ? undefined : makeRecord(state, first, { uri: tree.uri, line: first.line });
}

/** The part that a value in hand is said of, for the editor; one that is not there is reported. */
function nameActual(state: Lowering, { statement, origin }: Actual): void {
  const range = rangeOn(origin, statement.name.range);
  const name = statement.name.text;
  const item = state.namedItems.get(name);
  if (item?.instance !== undefined && item.kind === 'part')
    return recordUse(state, { kind: 'part', range, definition: item.nameRange, name, part: item.instance.part.id });
  reportMisspelling(state, 'unknown-name', range, `there is no part ${name}`, { word: name, among: state.spellings.of('part') });
}

/** The text's own rig, else the first one in a used file; a second one in the same file is reported. */
function onlyRig(state: Lowering, tree: Tree, statements: readonly Placed[]): Rig {
  const rigs = statements.flatMap(({ statement, origin }) =>
    statement.kind === 'rig' ? [{ origin, rig: makeRig(state, statement, origin), statement }] : [],
  );
  const files = new Set<string>();
  for (const { origin, statement } of rigs) {
    if (files.has(origin.uri))
      report(state, 'form', rangeOn(origin, statement.range), 'there is already a rig; a circuit has one');
    files.add(origin.uri);
  }
  return (rigs.find(({ origin }) => origin.uri === tree.uri) ?? rigs[0])?.rig ?? USUAL_RIG;
}

/** The text's own habits, else those of the first used file that tells any: a house file can hold them; a second one in the same file is reported. */
function onlyBuild(state: Lowering, tree: Tree, statements: readonly Placed[]): Pick<Circuit, 'build' | 'order'> {
  const builds = statements.flatMap(({ statement, origin }) =>
    statement.kind === 'build' ? [{ origin, statement, made: makeBuild(state, statement, origin) }] : [],
  );
  const files = new Set<string>();
  for (const { origin, statement } of builds) {
    if (files.has(origin.uri))
      report(state, 'form', rangeOn(origin, statement.range), 'there is already a build block; a circuit has one');
    files.add(origin.uri);
  }
  return (builds.find(({ origin }) => origin.uri === tree.uri) ?? builds[0])?.made ?? {};
}

/** Where statements stand that neither wire nor declare anything, those that could not be read among them. */
function asideIn(trees: readonly Tree[]): SourceRange[] {
  return trees.flatMap(({ uri, statements, problems }) => [
    ...statements.filter(({ kind }) => ASIDE.has(kind)).map(({ line, range }) => rangeOn({ uri, line }, range)),
    ...problems.filter(({ head }) => head !== undefined && ASIDE.has(head)).map(({ range }) => rangeOn({ uri, line: 0 }, range)),
  ]);
}

/** What is to be written in place of a slip of notation, where the parser knows. */
function rewriteOf({ rewrites }: SyntaxProblem, uri: string): Fix[] {
  const [first] = rewrites ?? [];
  if (rewrites === undefined || first === undefined) return [];
  const edits = rewrites.map(({ range, text }) => ({ range: rangeOn({ uri, line: 0 }, range), text }));
  const { start, end } = first.range;
  const isAdded = start.line === end.line && start.character === end.character;
  return [{ title: `${isAdded ? 'add' : 'write'} ${first.text.trim()}`, edits, confidence: 'sure' }];
}

/** What is wrong with this text, from top to bottom; for a used file only that something is wrong with it. */
function problemsOf(tree: Tree, used: UsedFiles, reports: FileReports): Finding[] {
  const findingsOf = (file: Tree): Finding[] => {
    const textIn = createTextReader(file.scan?.text ?? '');
    return problemsIn(file).map((problem) => ({ ...problem, claim: textClaim(problem.rule, textIn(problem.range)) }));
  };
  const problemsIn = (file: Tree): Problem[] => [
    ...file.problems.map((problem) => ({
      rule: problem.rule,
      severity: problem.severity,
      message: problem.message,
      range: rangeOn({ uri: file.uri, line: 0 }, problem.range),
      related: [],
      fixes: rewriteOf(problem, file.uri),
      subjects: [],
    })),
    ...reports.of(file.uri).problems.findings,
  ];
  const own = findingsOf(tree);
  const reported = new Set<string>();
  for (const { range, path, files } of used.uses) {
    const errors = used.trees
      .filter((file) => files.includes(file.uri) && !reported.has(file.uri))
      .flatMap(findingsOf)
      .filter((finding) => finding.severity === 'error');
    for (const uri of files) reported.add(uri);
    const [first, ...others] = errors;
    if (first === undefined) continue;
    own.push({
      rule: 'use',
      severity: 'error',
      claim: textClaim('use', path),
      message: `${path} has problems: ${others.length === 0 ? first.message : `it has ${counted(errors.length, 'error')}`}`,
      range,
      related: errors.slice(0, 3).map((error) => ({ message: error.message, range: error.range })),
      fixes: [],
      subjects: [],
    });
  }
  return own.sort((a, b) => compareRanges(a.range, b.range));
}

/** Reads stretches of a text, which is split into lines once it is asked for. */
function createTextReader(text: string): (range: SourceRange) => string {
  let kept: readonly string[] | undefined;
  return ({ start, end }) => {
    const lines = (kept ??= linesOf(text)).slice(start.line, end.line + 1);
    const last = lines.pop() ?? '';
    const whole = [...lines, last.slice(0, end.character)].join(' ');
    return whole.slice(start.character);
  };
}
