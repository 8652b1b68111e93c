/** What the extension believes of what its panel says: messages in the form that the protocol gives them; anything else is none. */
import type { FromPanel, PanelState } from './protocol.js';
import { readControls } from './state.js';

/** Bytes of a picture that are written at most: a drawing of dots is far below. */
const mostBytes = 64 * 1024 * 1024;

/** What a message of a kind brings besides its kind. */
type Of<K extends FromPanel['kind']> = K extends unknown ? DistributiveOmit<Extract<FromPanel, { kind: K }>> : never;
type DistributiveOmit<M> = M extends unknown ? Omit<M, 'kind'> : never;

type Fields = Readonly<Record<string, unknown>>;

const idOf = ({ id }: Fields): { readonly id: string } | undefined => (typeof id === 'string' ? { id } : undefined);

/** What each kind of message brings, or undefined where it is not what it must be. */
const readers: {
  readonly [K in FromPanel['kind']]: (fields: Fields) => Of<K> | undefined;
} = {
  ready: () => ({}),
  go: idOf,
  ask: idOf,
  rename: idOf,
  goFinding: ({ finding }) => (isNumber(finding) ? { finding } : undefined),
  fix: ({ finding, title }) => (isNumber(finding) && typeof title === 'string' ? { finding, title } : undefined),
  wire: ({ from, to, other }) => readWire(from, to, other),
  reading: ({ line, text }) => (typeof line === 'string' && typeof text === 'string' ? { line, text } : undefined),
  set: ({ at }) => ({ at: readControls(at) }),
  look: ({ side, grounds }) => (isSide(side) && isGrounds(grounds) ? { side, grounds } : undefined),
  exported: ({ format, text, bytes }) => readExported(format, text, bytes),
  failed: ({ message }) => ({ message: String(message) }),
};

/** The message, or undefined where it is none of the panel's. */
export function readMessage(value: unknown): FromPanel | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const fields = value as Fields;
  const { kind } = fields;
  if (typeof kind !== 'string' || !Object.hasOwn(readers, kind)) return undefined;
  const read = readers[kind as FromPanel['kind']](fields);
  return read === undefined ? undefined : ({ kind, ...read } as FromPanel);
}

function readWire(from: unknown, to: unknown, other: unknown): Of<'wire'> | undefined {
  if (typeof from !== 'string' || typeof to !== 'string') return undefined;
  return { from, to, ...(typeof other === 'string' ? { other } : {}) };
}

function readExported(format: unknown, text: unknown, bytes: unknown): Of<'exported'> | undefined {
  if (format === 'svg' && typeof text === 'string' && text.startsWith('<svg ')) return { format, text };
  if (format === 'png' && bytes instanceof Uint8Array && bytes.length <= mostBytes) return { format, bytes };
  return undefined;
}

function isSide(value: unknown): value is PanelState['side'] {
  return value === 'solder' || value === 'player';
}

function isGrounds(value: unknown): value is PanelState['grounds'] {
  return value === 'auto' || value === 'wires' || value === 'marks';
}

/** The number of a finding, as it was sent. */
function isNumber(value: unknown): value is number {
  return Number.isInteger(value) && Number(value) >= 0;
}
