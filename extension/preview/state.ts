/** The state of a panel, and what is believed of one that comes back after a reload. */
import type { ControlsAt } from '../../server/protocol.js';
import type { PanelState } from './protocol.js';

/** A panel as it is first opened. */
export function freshState(uri: string): PanelState {
  return { uri, side: 'solder', grounds: 'auto', at: { positions: {}, rotations: {} } };
}

/** The state in a value that was kept, or undefined where it is none; what is not understood counts as not said. */
export function readState(value: unknown): PanelState | undefined {
  const { uri, side, grounds, at } = recordOf(value);
  if (typeof uri !== 'string') return undefined;
  const fresh = freshState(uri);
  return {
    uri,
    side: side === 'player' ? 'player' : fresh.side,
    grounds: grounds === 'wires' || grounds === 'marks' ? grounds : fresh.grounds,
    at: readControls(at),
  };
}

/** How controls stand, of whatever a message holds. */
export function readControls(value: unknown): ControlsAt {
  const { positions, rotations } = recordOf(value);
  return {
    positions: entriesOf(positions, (one): one is string => typeof one === 'string'),
    rotations: entriesOf(rotations, (one): one is number => typeof one === 'number' && Number.isFinite(one)),
  };
}

function entriesOf<T>(value: unknown, isGood: (one: unknown) => one is T): Record<string, T> {
  return Object.fromEntries(Object.entries(recordOf(value)).filter((entry): entry is [string, T] => isGood(entry[1])));
}

function recordOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}
