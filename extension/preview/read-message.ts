/** What the extension believes of what its panel says: messages in the form that the protocol gives them; anything else is none. */
import type { FromPanel, PanelState } from './protocol.js';
import { readControls } from './state.js';

/** Bytes of a picture that are written at most: a drawing of dots is far below. */
const mostBytes = 64 * 1024 * 1024;

/** The message, or undefined where it is none of the panel's. */
export function readMessage(value: unknown): FromPanel | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { kind, id, from, to, other, finding, title, at, side, grounds, format, text, bytes, message } = value as Readonly<
    Record<string, unknown>
  >;
  switch (kind) {
    case 'ready':
      return { kind };
    case 'go':
    case 'ask':
    case 'rename':
      return typeof id === 'string' ? { kind, id } : undefined;
    case 'goFinding':
      return isNumber(finding) ? { kind, finding } : undefined;
    case 'fix':
      return isNumber(finding) && typeof title === 'string' ? { kind, finding, title } : undefined;
    case 'wire':
      return readWire(from, to, other);
    case 'set':
      return { kind, at: readControls(at) };
    case 'look':
      return isSide(side) && isGrounds(grounds) ? { kind, side, grounds } : undefined;
    case 'exported':
      return readExported(format, text, bytes);
    case 'failed':
      return { kind, message: String(message) };
    default:
      return undefined;
  }
}

function readWire(from: unknown, to: unknown, other: unknown): FromPanel | undefined {
  if (typeof from !== 'string' || typeof to !== 'string') return undefined;
  return { kind: 'wire', from, to, ...(typeof other === 'string' ? { other } : {}) };
}

function readExported(format: unknown, text: unknown, bytes: unknown): FromPanel | undefined {
  if (format === 'svg' && typeof text === 'string' && text.startsWith('<svg ')) return { kind: 'exported', format, text };
  if (format === 'png' && bytes instanceof Uint8Array && bytes.length <= mostBytes) return { kind: 'exported', format, bytes };
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
