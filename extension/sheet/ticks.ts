/** Which rows of a sheet are ticked, kept in the workspace for each instrument of a batch. */
import type { Memento } from 'vscode';

export interface Ticks {
  /** Keys of the rows that are ticked; those of rows that are not on the sheet now among them, so that an edit taken back brings them back. */
  of(uri: string, number: number): readonly string[];
  set(uri: string, number: number, key: string, isDone: boolean): Promise<void>;
}

/** More than any sheet has rows: beyond, the oldest ticks are forgotten. */
const most = 4000;

export function createTicks(memento: Memento): Ticks {
  const placeOf = (uri: string, number: number): string => `bench sheet ${number} ${uri}`;
  const read = (uri: string, number: number): readonly string[] => {
    const kept = memento.get<unknown>(placeOf(uri, number));
    return Array.isArray(kept) ? kept.filter((key) => typeof key === 'string') : [];
  };
  return {
    of: read,
    set: async (uri, number, key, isDone) => {
      const others = read(uri, number).filter((one) => one !== key);
      const keys = isDone ? [...others, key].slice(-most) : others;
      await memento.update(placeOf(uri, number), keys.length === 0 ? undefined : keys);
    },
  };
}
