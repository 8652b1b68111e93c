/** A switch position that plays something else than its name says, or than the other positions lead one to expect. */
import { type AnalysedCircuit, elementById, type ElementId, partById, type Part, type Switch } from '../../circuit/model.js';
import type { SettingsClaim } from '../../claim.js';
import type { Setting, Sound } from '../../electrics/index.js';
import { isOneSlip, nearestArrangement, pickupsNamed, rolesOf, tokensOf } from '../../roles/index.js';
import type { Statement } from '../../source.js';
import { abridged, capitalised } from '../../words.js';
import { controlAt, describeSettings, placeOfPart, rowsOf, type Facts } from '../facts/index.js';
import { isJudgeable } from '../facts/shafts.js';
import { hearingsOf } from '../facts/signal/hearings.js';
import { defineRule, reportsOf, type Report, type Rule } from '../rule.js';
import { silentPosition } from './silent-position.js';
import { isExplained, twinPositions } from './twin-positions.js';

/** Of more settings than these the positions are not compared. */
const mostSettings = 64;

interface Claim extends Statement {
  /** `exchanged`: two positions that sound the other way round than they are called; `apart`: two called series and parallel in which nothing is joined. */
  readonly kind: 'name' | 'order' | 'exchanged' | 'apart';
  readonly subjects: { readonly switch: string };
  readonly settings: SettingsClaim;
  readonly sounds: readonly string[];
  readonly usually: readonly string[];
}

export const unusualPosition = defineRule<Claim>({
  id: 'unusual-position',
  severity: 'warning',
  summary: 'a switch position that plays something else than its name or the other positions lead one to expect',
  describe({ kind, settings, sounds, usually }) {
    const where = capitalised(describeSettings({ settings }));
    if (kind === 'name')
      return `${where}, what sounds is ${abridged(sounds)}, though the position is called after ${abridged(usually)}`;
    const and = (texts: readonly string[]): string => texts.join(' and ');
    if (kind === 'apart') return `${where}, what sounds is ${and(sounds)}: joined neither in series nor in parallel`;
    if (kind === 'exchanged') return `${where}, what sounds is ${and(sounds)}: the other way round than the two are called`;
    return `${where}, what sounds is ${and(sounds)}; with the other positions as they are it is usually ${and(usually)}`;
  },
  check(facts) {
    const { circuit, signal } = facts;
    if (!isJudgeable(facts) || signal.neverHeard().size > 0 || facts.settings().length > mostSettings) return [];
    const selectors = new Set(
      rolesOf(circuit).flatMap(({ unit, word, confidence }) =>
        unit.kind === 'switch' && word === 'selector' && confidence !== 'weak' ? [unit.switch] : [],
      ),
    );
    const hearings = hearingsOf(facts).map((hearing) => hearing.facts);
    const odd = circuit.switches.flatMap((device) => {
      const here = actingAt(hearings, device);
      if (here === undefined) return [];
      const misnamed = selectors.has(device.id) ? misnamedPositions(here, device) : [];
      const unusual = selectors.has(device.id) && misnamed.length === 0 ? oddPositions(here, device) : [];
      return [...misnamed, ...unusual, ...exchangedPositions(here, device)];
    });
    if (odd.length === 0) return [];
    // Positions that are alike or silent have a cause of their own.
    const reported = new Set(
      [twinPositions, silentPosition].flatMap((rule: Rule) => reportsOf(facts, rule).flatMap(({ subjects }) => subjects)),
    );
    const unexplained = new Set(circuit.switches.filter((device) => !isExplained(facts, device)).map(({ name }) => name));
    return odd.filter(({ claim: { subjects } }) => !reported.has(subjects.switch) && unexplained.has(subjects.switch));
  },
});

/** What the names of two positions say of how they differ, by words of the trade. */
const wholeWords = ['full', 'whole', 'humbucker'];
const partWords = ['split', 'tap', 'tapped', 'single', 'inner', 'half', 'coil'];

/** Two positions of one switch that do what the name of the other says: whole and split, series and parallel, one coil and the other. */
function exchangedPositions(facts: Facts, device: Switch): readonly Report<Claim>[] {
  const labels = device.positions.map(({ key, label }) => (label === key ? [] : tokensOf(label)));
  const pairs = labels.flatMap((one, a) => labels.slice(a + 1).map((other, index) => ({ a, b: a + 1 + index, one, other })));
  for (const { a, b, one, other } of pairs) {
    const order = createOrder(facts.circuit, one, other);
    if (order === undefined || isJudged(facts, device, [a, b])) continue;
    const sounds = rowsOf(facts, device).flatMap((row) => {
      const [first, second] = [row[a], row[b]];
      return first === undefined || second === undefined
        ? []
        : [[facts.signal.sound(first), facts.signal.sound(second)] as const];
    });
    const isJoining = [one, other].every((tokens) => tokens.includes('series') || tokens.includes('parallel'));
    const isApart = isJoining && sounds.every(([x, y]) => areApart(x, y));
    const shown = isApart ? sounds[0] : exchangedAmong(sounds, order);
    if (shown === undefined) continue;
    const kind = isApart ? 'apart' : 'exchanged';
    return [reportOf(facts, device, { kind, at: [a, b], sounds: shown.map(({ text }) => text), usually: [] })];
  }
  return [];
}

/** The first two that differ the other way round than their names, unless some differ as the names say. How coils are joined takes long to name, so the first that do end the search. */
function exchangedAmong(
  sounds: readonly (readonly [Sound, Sound])[],
  order: (a: Sound, b: Sound) => number,
): readonly [Sound, Sound] | undefined {
  let found: readonly [Sound, Sound] | undefined;
  for (const pair of sounds) {
    const way = order(...pair);
    if (way === 1) return undefined;
    if (way === -1) found ??= pair;
  }
  return found;
}

/** True where two sounds have no coil in common. */
function areApart(one: Sound, other: Sound): boolean {
  if (one.silent || other.silent) return false;
  const coils = new Set(one.heard.map(({ coil }) => coil));
  return !other.heard.some(({ coil }) => coils.has(coil));
}

/** True where an expectation speaks of one of these positions. */
function isJudged({ settings, intended }: Facts, device: Switch, at: readonly number[]): boolean {
  return settings().some((setting) => at.includes(setting.positions[device.id] ?? -1) && intended.asksSound(setting));
}

/**
 * For the names of two positions that are opposites: 1 where two sounds differ as the names say, −1 where they differ the other way round, else 0;
 * undefined for other names.
 */
function createOrder(
  circuit: AnalysedCircuit,
  one: readonly string[],
  other: readonly string[],
): ((a: Sound, b: Sound) => number) | undefined {
  const coilsIn = ({ heard }: Sound, named?: string): number =>
    heard.filter(({ coil }) => named === undefined || named === coilOf(circuit, coil)).length;
  const isJoined = ({ text }: Sound, way: string): number => (text.includes(`${way}(`) ? 1 : 0);
  /** Words for more and for less of what is measured. */
  const opposites: readonly (readonly [readonly string[], readonly string[], (sound: Sound) => number])[] = [
    [wholeWords, partWords, (sound) => coilsIn(sound)],
    [['series'], ['parallel'], (sound) => isJoined(sound, 'series') - isJoined(sound, 'parallel')],
    [['north'], ['south'], (sound) => coilsIn(sound, 'north') - coilsIn(sound, 'south')],
  ];
  const says = (tokens: readonly string[], words: readonly string[]): boolean => tokens.some((token) => words.includes(token));
  for (const [more, less, measure] of opposites) {
    const sign = says(one, more) && says(other, less) ? 1 : says(one, less) && says(other, more) ? -1 : 0;
    if (sign !== 0) return (a, b) => (a.silent || b.silent ? 0 : sign * Math.sign(measure(a) - measure(b)));
  }
  return undefined;
}

function coilOf(circuit: AnalysedCircuit, id: ElementId): string {
  const element = elementById(circuit, id);
  return element.kind === 'coil' ? element.name : '';
}

/** The output at which what is heard depends on the switch; where there are several, what is quiet at one may serve another. */
function actingAt(hearings: readonly Facts[], device: Switch): Facts | undefined {
  const [here, ...others] = hearings.filter((heard) => actsAt(heard, device));
  return others.length > 0 ? undefined : here;
}

/** True where what is heard depends on the switch. */
function actsAt(facts: Facts, device: Switch): boolean {
  return rowsOf(facts, device).some((row) => new Set(row.map((setting) => facts.signal.sound(setting).text)).size > 1);
}

/** The settings of each position; where something is stated of one, or it is silent, none. */
function judgedSettings({ settings, intended, signal }: Facts, device: Switch, at: number): readonly Setting[] {
  const some = settings().filter(({ positions }) => positions[device.id] === at);
  return some.some((setting) => intended.asksSound(setting) || signal.sound(setting).silent) ? [] : some;
}

/** Positions called after pickups of which none, or another, is heard there, however the other switches are set. */
function misnamedPositions(facts: Facts, device: Switch): readonly Report<Claim>[] {
  const { circuit, signal } = facts;
  const isCalled = (name: string): boolean =>
    device.positions.some(({ label }) => pickupsNamed(label, [{ name }]).pickups.length > 0);
  const isOnlyIn = (assembly: string): boolean =>
    signal.pickups.filter(({ name }) => name.startsWith(`${assembly}.`)).length === 1;
  // The only pickup inside an assembly may go by the name of that.
  const pickups = signal.pickups.map(({ id, name }) => {
    const words = name.split('.');
    const own = words.at(-1) ?? name;
    const assemblies = words.filter((_, at) => at < words.length - 1 && isOnlyIn(words.slice(0, at + 1).join('.')));
    return { id, name: [own, ...assemblies.reverse()].find(isCalled) ?? own };
  });
  return device.positions.flatMap(({ key, label }, at): readonly Report<Claim>[] => {
    // The middle of a toggle is no pickup.
    const named = pickupsNamed(label === key ? '' : label, pickups);
    const settings = named.pickups.length === 0 ? [] : judgedSettings(facts, device, at);
    if (settings.length === 0) return [];
    const heard = settings.map(
      (setting) => new Set(signal.sound(setting).heard.map(({ coil }) => elementById(circuit, coil).part)),
    );
    const isAsNamed = (parts: ReadonlySet<Part['id']>): boolean =>
      named.pickups.every(({ id }) => parts.has(id)) && (!named.isAll || parts.size === named.pickups.length);
    const [first] = heard;
    if (first === undefined || heard.some(isAsNamed)) return [];
    const sounds = pickups.filter(({ id }) => first.has(id)).map(({ name }) => name);
    return [reportOf(facts, device, { kind: 'name', at: [at], sounds, usually: named.pickups.map(({ name }) => name) })];
  });
}

/** One position that differs from a usual arrangement in which all others agree, or two that are exchanged, however the other switches are set. */
function oddPositions(facts: Facts, device: Switch): readonly Report<Claim>[] {
  // A user's own type may have its positions in any order.
  if (!partById(facts.circuit, device.part).ancestry.some((type) => /^(lever|toggle|rotary)-/.test(type))) return [];
  const nearest = rowsOf(facts, device).map((row) => {
    const departures = nearestArrangement(row.map((setting) => facts.signal.sound(setting).text));
    return departures !== undefined && isOneSlip(departures) ? departures : undefined;
  });
  const [first] = nearest;
  if (first === undefined || first.length === 0) return [];
  const at = first.map((departure) => departure.at);
  if (nearest.some((departures) => departures?.map((departure) => departure.at).join() !== at.join())) return [];
  // A position with its own name says what is intended.
  const isNamed = (index: number): boolean => device.positions[index]?.label !== device.positions[index]?.key;
  if (at.some((index) => isNamed(index) || judgedSettings(facts, device, index).length === 0)) return [];
  const [sounds, usually] = [first.map((one) => one.sounds), first.map((one) => one.usually)];
  return [reportOf(facts, device, { kind: 'order', at, sounds, usually })];
}

interface Odd extends Pick<Claim, 'kind' | 'sounds' | 'usually'> {
  readonly at: readonly number[];
}

function reportOf({ circuit }: Facts, device: Switch, { at, ...claim }: Odd): Report<Claim> {
  return {
    claim: { ...claim, subjects: { switch: device.name }, settings: [[controlAt(device, at)]] },
    why: 'Usually a jumper or a lead is one lug too far. If it is intended, say what sounds in an `expect` line for this position.',
    range: placeOfPart(circuit, device.part),
    subjects: [device.name, partById(circuit, device.part).name],
  };
}
