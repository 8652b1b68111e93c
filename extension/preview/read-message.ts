/** What the extension believes of what its panel says: messages in the form that the protocol gives them; anything else is none. */
import type { FromPanel } from './protocol.js';
import { readControls } from './state.js';

/** Bytes of a picture that are written at most: a drawing of dots is far below. */
const mostBytes = 64 * 1024 * 1024;

/** The message, or undefined where it is none of the panel's. */
export function readMessage(value: unknown): FromPanel | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { kind, id, finding, title, at, side, grounds, format, text, bytes, message } = value as Readonly<
    Record<string, unknown>
  >;
  switch (kind) {
    case 'ready':
      return { kind };
    case 'go':
    case 'ask':
      return typeof id === 'string' ? { kind, id } : undefined;
    case 'goFinding':
      return isNumber(finding) ? { kind, finding } : undefined;
    case 'fix':
      return isNumber(finding) && typeof title === 'string' ? { kind, finding, title } : undefined;
    case 'set':
      return { kind, at: readControls(at) };
    case 'look':
      return (side === 'solder' || side === 'player') && (grounds === 'auto' || grounds === 'wires' || grounds === 'marks')
        ? { kind, side, grounds }
        : undefined;
    case 'exported':
      if (format === 'svg' && typeof text === 'string' && text.startsWith('<svg ')) return { kind, format, text };
      if (format === 'png' && bytes instanceof Uint8Array && bytes.length <= mostBytes) return { kind, format, bytes };
      return undefined;
    case 'failed':
      return { kind, message: String(message) };
    default:
      return undefined;
  }
}

/** The number of a finding, as it was told. */
function isNumber(value: unknown): value is number {
  return Number.isInteger(value) && Number(value) >= 0;
}
