/** What a finding says, as data: its sentence is made from it, and it is recognised by it. */

/** Names in their role: `{ "lead": "neck.hot", "soldered-to": ["selector.A2"] }`. Parts, lugs, coils, controls, as the text names them; a net goes by its lugs. */
export type Subjects = { readonly [role: string]: SubjectNames };
export type SubjectNames = string | readonly SubjectNames[] | Subjects;

/** One position of a switch, by its number or the bare name that its type gives it, or a pot's rotation from 0 to 10. */
export interface ControlPosition {
  readonly position: string;
  /** The name that the text gives the position. */
  readonly name?: string;
}

/** A control and the positions meant, one or several of them. */
export interface ControlAt {
  readonly control: string;
  readonly at: readonly ControlPosition[];
}

/**
 * Where something holds: at any of these. Within one of them every control named must be in one of its positions, and controls that are
 * not named stand anywhere, so that `[[]]` is every position.
 */
export type SettingsClaim = readonly (readonly ControlAt[])[];

/** A number in its unit: ohm, farad, henry, hertz, ampere, decibel, metre, percent, or a count of things. */
export interface Figure {
  readonly value: number;
  readonly unit: 'ohm' | 'farad' | 'henry' | 'hertz' | 'ampere' | 'decibel' | 'metre' | 'percent' | 'count';
}

export interface Statement {
  /** Which of the things it says, where a rule can say several. */
  readonly kind?: string;
  readonly subjects?: Subjects;
  /** Absent where it doesn't depend on how the controls are set, or nothing can be set. */
  readonly settings?: SettingsClaim;
  /** How many settings there are besides those listed, where they are too many to list. */
  readonly moreSettings?: number;
  /** How many settings were tried, where that is not all of them: what the statement says of every position it says of these. */
  readonly tried?: number;
  readonly figures?: Readonly<Record<string, Figure>>;
  /** What was found in the circuit instead of what should be there, one entry for each different answer. */
  readonly observed?: readonly Statement[];
}

/** Plain JSON. */
export interface FindingClaim extends Statement {
  readonly rule: string;
}

/** A figure with as many digits as are worth keeping: a claim is read by people, too. */
export function figure<U extends Figure['unit']>(value: number, unit: U, digits = 6): Figure & { readonly unit: U } {
  return { value: Number(value.toPrecision(digits)), unit };
}

/**
 * Equal for findings that say the same of the same things: rule, kind, subjects and settings, whatever the wording, the place in the text and the order
 * of names. Figures, observations and how much was tried are left out. They follow from values all over the circuit, so a resistor of another tolerance,
 * or a better model of a pickup, would otherwise turn a known finding into a new one. `as` translates names, for a circuit whose parts were renamed.
 */
export function identityOf(claim: FindingClaim, as: (name: string) => string = (name) => name): string {
  const { rule, kind = '', subjects = {}, settings, moreSettings = 0 } = claim;
  const places = settings?.map((controls) =>
    setOf(controls.map(({ control, at }) => [as(control), setOf(at.map(({ position }) => position))])),
  );
  return JSON.stringify([rule, kind, namesOf(subjects, as), places === undefined ? null : setOf(places), moreSettings]);
}

/** The same with figures and observations: equal where nothing that a claim says has changed. */
export function contentOf(claim: FindingClaim, as: (name: string) => string = (name) => name): string {
  const { figures = {}, observed = [], tried = null } = claim;
  const inside = observed.map((statement) => contentOf({ rule: '', ...statement }, as));
  return JSON.stringify([identityOf(claim, as), Object.entries(figures).sort(byKey), inside.sort(), tried]);
}

/** Every name in the claim, of subjects and of controls. */
export function namesIn({ subjects = {}, settings = [] }: Statement): readonly string[] {
  const names = (some: SubjectNames): readonly string[] =>
    typeof some === 'string' ? [some] : Object.values(some as Subjects).flatMap(names);
  return [...new Set([...names(subjects), ...settings.flat().map(({ control }) => control)])];
}

/** Names of one role are a set: their order is that of the text, and says nothing. */
function namesOf(names: SubjectNames, as: (name: string) => string): unknown {
  if (typeof names === 'string') return as(names);
  if (isList(names)) return setOf(names.map((one) => namesOf(one, as)));
  return Object.entries(names)
    .map(([role, of]) => [role, namesOf(of, as)] as const)
    .sort(byKey);
}

function isList(names: SubjectNames): names is readonly SubjectNames[] {
  return Array.isArray(names);
}

function setOf(items: readonly unknown[]): readonly unknown[] {
  return items
    .map((item) => [JSON.stringify(item), item] as const)
    .sort(byKey)
    .map(([, item]) => item);
}

function byKey([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
