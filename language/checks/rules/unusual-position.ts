/** A position of a selector that plays something else than its name says, or than the other positions lead one to expect. */
import { elementById, partById, switchById, type Part, type Switch } from '../../circuit/model.js';
import type { SettingsClaim } from '../../claim.js';
import { outputsOf, type Setting } from '../../electrics/index.js';
import { orders, patterns, pickupsNamed, rolesOf } from '../../roles/index.js';
import type { Statement } from '../../source.js';
import { abridged, capitalised } from '../../words.js';
import { controlAt, describeSettings, placeOfPart, type Facts } from '../facts/index.js';
import { isJudgeable } from '../facts/shafts.js';
import { defineRule, reportsOf, type Report, type Rule } from '../rule.js';
import { silentPosition } from './silent-position.js';
import { isExplained, twinPositions } from './twin-positions.js';

/** Of more settings or pickups than these the positions are not compared. */
const mostSettings = 64;
const mostPickups = 4;

interface Claim extends Statement {
  readonly kind: 'name' | 'order';
  readonly subjects: { readonly switch: string };
  readonly settings: SettingsClaim;
  readonly sounds: readonly string[];
  readonly usually: readonly string[];
}

export const unusualPosition = defineRule<Claim>({
  id: 'unusual-position',
  severity: 'warning',
  summary: 'a position of a selector that plays something else than its name or the other positions lead one to expect',
  describe({ kind, settings, sounds, usually }) {
    const where = capitalised(describeSettings({ settings }));
    if (kind === 'name')
      return `${where}, what sounds is ${abridged(sounds)}, though the position is called after ${abridged(usually)}`;
    const and = (texts: readonly string[]): string => texts.join(' and ');
    return `${where}, what sounds is ${and(sounds)}; with the other positions as they are it is usually ${and(usually)}`;
  },
  check(facts) {
    const { circuit, signal } = facts;
    // With several outputs a position that is quiet at one may serve another.
    if (!isJudgeable(facts) || outputsOf(circuit).length > 1) return [];
    if (signal.neverHeard().size > 0 || facts.settings().length > mostSettings) return [];
    const selectors = rolesOf(circuit).flatMap(({ unit, word, confidence }) =>
      unit.kind === 'switch' && word === 'selector' && confidence !== 'weak' ? [switchById(circuit, unit.switch)] : [],
    );
    const odd = selectors.flatMap((device) => {
      const misnamed = misnamedPositions(facts, device);
      return misnamed.length > 0 ? misnamed : oddPositions(facts, device);
    });
    if (odd.length === 0) return [];
    // Positions that are alike or silent have a cause of their own.
    const reported = new Set(
      [twinPositions, silentPosition].flatMap((rule: Rule) => reportsOf(facts, rule).flatMap(({ subjects }) => subjects)),
    );
    const unexplained = new Set(selectors.filter((device) => !isExplained(facts, device)).map(({ name }) => name));
    return odd.filter(({ claim: { subjects } }) => !reported.has(subjects.switch) && unexplained.has(subjects.switch));
  },
});

/** The settings of each position; where something is stated of one, or it is silent, none. */
function judgedSettings({ settings, intended, signal }: Facts, device: Switch, at: number): readonly Setting[] {
  const some = settings().filter(({ positions }) => positions[device.id] === at);
  return some.some((setting) => intended.asksSound(setting) || signal.sound(setting).silent) ? [] : some;
}

/** Positions called after pickups of which none, or another, is heard there, however the other switches are set. */
function misnamedPositions(facts: Facts, device: Switch): readonly Report<Claim>[] {
  const { circuit, signal } = facts;
  const pickups = signal.pickups.filter(({ parent }) => parent === undefined);
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
  const rows = rowsOf(facts, device);
  const nearest = rows.map((row) => nearestTo(row.map((setting) => plain(facts.signal.sound(setting).text))));
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

/** The settings by position, once for each way in which the other switches can stand. */
function rowsOf(facts: Facts, device: Switch): readonly (readonly Setting[])[] {
  const rows = new Map<string, Setting[]>();
  for (const setting of facts.settings()) {
    const others = setting.positions.filter((_, id) => id !== device.id).join();
    const row = rows.get(others) ?? [];
    row.push(setting);
    rows.set(others, row);
  }
  return [...rows.values()].filter((row) => row.length === device.positions.length);
}

interface Departure {
  readonly at: number;
  readonly sounds: string;
  readonly usually: string;
}

/** Where a row of sounds departs from the usual arrangement that it is nearest to: one position, or two that are exchanged. */
function nearestTo(sounds: readonly string[]): readonly Departure[] | undefined {
  const pickups = [...new Set(sounds.flatMap(namesIn))].sort();
  if (pickups.length < 2 || pickups.length > mostPickups) return undefined;
  const usual = orders(pickups).flatMap((order) => usualRows(order, sounds.length));
  const departures = usual.map((row) =>
    row.flatMap((usually, at): readonly Departure[] => {
      const heard = sounds[at] ?? '';
      return heard === usually ? [] : [{ at, sounds: heard, usually }];
    }),
  );
  const nearest = departures.sort((a, b) => a.length - b.length)[0];
  const [a, b] = nearest ?? [];
  const isExchanged = nearest?.length === 2 && a?.sounds === b?.usually && b?.sounds === a?.usually;
  return nearest !== undefined && (nearest.length <= 1 || isExchanged) ? nearest : undefined;
}

/** Patterns in which each position sounds different, members sorted by name as the language writes them; between neighbours also in series. */
function usualRows(order: readonly string[], positions: number): readonly (readonly string[])[] {
  return patterns.flatMap(({ name, arrange }) => {
    const row = name === 'coils' || name === 'split' ? undefined : arrange(order, positions);
    if (row === undefined) return [];
    const sorted = row.map((text) =>
      text.includes('(') ? `${text.split('(')[0] ?? ''}(${[...namesIn(text)].sort().join(', ')})` : text,
    );
    return name === 'neighbours' ? [sorted, sorted.map((text) => text.replace('parallel(', 'series('))] : [sorted];
  });
}

/** Without shares and phase, which do not say which pickups a position plays. */
function plain(text: string): string {
  return text.replace(/ \d+(\.\d+)?%/g, '').replaceAll('reversed ', '');
}

function namesIn(text: string): readonly string[] {
  return text === 'silent'
    ? []
    : text.split(/[(),\s]+/).filter((word) => word !== '' && !['series', 'parallel', 'mixed'].includes(word));
}
