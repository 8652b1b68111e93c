/** What the name of a position says of the pickups that are heard there. */
import { tokensOf } from './names.js';

/** Words that name no particular pickup. */
const general = ['pickup', 'pickups', 'pu', 'coil', 'humbucker', 'single'];

/** The pickups that the name of a position speaks of; `isAll` where it says nothing else. */
export function pickupsNamed<T extends { readonly name: string }>(
  label: string,
  pickups: readonly T[],
): { readonly pickups: readonly T[]; readonly isAll: boolean } {
  let words = ` ${tokensOf(label).join(' ')} `;
  if (words.trim() === 'both' && pickups.length === 2) return { pickups, isAll: true };
  // The longest name first: a front middle pickup is not the middle one.
  const named = [...pickups]
    .sort((a, b) => b.name.length - a.name.length)
    .filter(({ name }) => {
      const telling = tokensOf(name).filter((token) => !general.includes(token));
      const own = ` ${telling.join(' ')} `;
      const isIn = own.trim() !== '' && words.includes(own);
      if (isIn) words = words.replaceAll(own, ' | ');
      return isIn;
    });
  const others = words.split(/[ |]+/).filter((word) => !['', 'and', 'only', 'alone', 'pickup', 'pickups'].includes(word));
  return { pickups: pickups.filter((part) => named.includes(part)), isAll: others.length === 0 };
}
