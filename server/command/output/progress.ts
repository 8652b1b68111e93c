/** One line on a terminal that says how far long work is, and is gone when anything else is written. */
import { oneLine } from '../../../language/escape.js';
import { columnsOf } from './terminal.js';

export interface Progress {
  /** So many of all are done, and this one is being worked on. */
  show(done: number, total: number, name: string): void;
  /** Takes the line away. */
  clear(): void;
}

/** Milliseconds before anything is shown: short work says nothing. */
const patience = 500;
/** Milliseconds between two lines. */
const rate = 100;

/** `write` goes to the terminal at once, since work that takes long lets no event through; `now` is the clock in milliseconds. */
export function createProgress(write: (text: string) => void, columns: () => number, now: () => number = Date.now): Progress {
  let [begun, shown, isThere] = [now(), 0, false];
  return {
    show(done, total, name) {
      if (done === 0) begun = now();
      if (total < 2 || now() - begun < patience || now() - shown < rate) return;
      shown = now();
      isThere = true;
      write(`\r\u001b[K${cut(`${done} of ${total}  ${oneLine(name)}`, columns() - 1)}`);
    },
    clear() {
      if (isThere) write('\r\u001b[K');
      isThere = false;
    },
  };
}

/** The text as far as it fits into so many columns: a line that wraps could not be taken away. */
function cut(text: string, columns: number): string {
  let kept = '';
  for (const sign of text) {
    if (columnsOf(kept + sign) > columns) break;
    kept += sign;
  }
  return kept;
}
