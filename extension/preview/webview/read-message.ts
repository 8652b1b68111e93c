/** What the panel believes: messages of the extension in the form that the protocol gives them; anything else is passed over. */
import type { ToPanel } from '../protocol.js';
import type { KeptSections } from './sections.js';
import type { KeptView } from './view.js';

type Fields = Readonly<Record<string, unknown>>;

/** What each kind of message must hold; what lies deeper is made by the language's own code. */
const forms: { readonly [K in ToPanel['kind']]: (fields: Fields) => boolean } = {
  state: ({ state }) => isRecord(state) && isText(state.side) && isText(state.grounds) && isControls(state.at),
  picture: ({ scene, controls, remarks }) => isScene(scene) && Array.isArray(controls) && areTexts(remarks),
  table: ({ rows, leftOut }) => areRecords(rows) && areTexts(leftOut),
  played: ({ at, highlight, curve }) =>
    isControls(at) && isRecord(highlight) && isRecord(highlight.states) && isText(highlight.says) && isCurve(curve),
  banner: ({ text }) => isText(text),
  cursor: ({ ids }) => areTexts(ids),
  findings: ({ findings }) => areFindings(findings),
  suspects: ({ search }) => isSearch(search),
  about: ({ id, about }) =>
    isText(id) && isRecord(about) && areTexts(about.hover) && areFindings(about.findings) && areRecords(about.fixes),
  export: ({ format }) => format === 'svg' || format === 'png',
  section: ({ name }) => isText(name),
};

/** The message, or undefined where it is none of the extension's. */
export function readMessage(value: unknown): ToPanel | undefined {
  if (!isRecord(value) || !isText(value.kind) || !Object.hasOwn(forms, value.kind)) return undefined;
  return forms[value.kind as ToPanel['kind']](value) ? (value as unknown as ToPanel) : undefined;
}

/** The window that was kept, where it is one. */
export function readView(value: unknown): KeptView {
  if (value === 'whole') return value;
  if (!isRecord(value)) return undefined;
  const { x, y, width, height } = value;
  const isBox = [x, y, width, height].every(isFigure) && Number(width) > 0 && Number(height) > 0;
  return isBox ? { x: Number(x), y: Number(y), width: Number(width), height: Number(height) } : undefined;
}

/** How the panel was divided, as far as it was kept. */
export function readSections(value: unknown): Partial<KeptSections> {
  if (!isRecord(value)) return {};
  const { share, folded } = value;
  return {
    ...(isFigure(share) ? { share: Number(share) } : {}),
    ...(Array.isArray(folded) && areTexts(folded) ? { folded: folded as string[] } : {}),
  };
}

function isSearch(value: unknown): boolean {
  if (!isRecord(value) || !areRecords(value.suspects)) return false;
  const { suspects, next } = value;
  const isNext = next === undefined || (isRecord(next) && isText(next.line) && isText(next.where));
  return isNext && suspects.every(({ says, ids }) => isText(says) && areTexts(ids));
}

function isScene(value: unknown): boolean {
  const lists = ['groups', 'channels', 'parts', 'wires', 'joints', 'marks', 'contacts', 'notes', 'samples'];
  return isRecord(value) && value.version === 1 && lists.every((name) => areRecords(value[name])) && isFigure(value.width);
}

function isControls(value: unknown): boolean {
  return isRecord(value) && isRecord(value.positions) && isRecord(value.rotations);
}

function isCurve(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { hz, db, deg } = value;
  return (
    Array.isArray(hz) &&
    [db, deg].every((list) => Array.isArray(list) && list.length === hz.length) &&
    [hz, db, deg].flat().every((one) => typeof one === 'number')
  );
}

function areFindings(value: unknown): boolean {
  return areRecords(value) && value.every(({ message, ids }) => isText(message) && areTexts(ids));
}

function areRecords(value: unknown): value is readonly Fields[] {
  return Array.isArray(value) && value.every(isRecord);
}

function areTexts(value: unknown): boolean {
  return Array.isArray(value) && value.every(isText);
}

function isText(value: unknown): value is string {
  return typeof value === 'string';
}

function isFigure(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value);
}

function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null;
}
