/** How a search that was stopped can be made to go on, as the command and the editor say it. */
import { stoppedText } from '../language/work.js';

/** More than this of the usual budget is not given to a search. */
export const mostEffort = 100;

/** What is said of the search for fixes; `effort` is the one it had. */
export function stoppedFixes(found: number, effort = 1): string {
  return [stoppedText('fixes', found), longer('check', effort)].filter(Boolean).join(' ');
}

/** The option with which a command searches longer; nothing where it cannot. */
export function longer(command: string, effort: number): string {
  return effort < mostEffort ? `\`lugwork ${command} --effort ${Math.min(mostEffort, 4 * effort)}\` searches longer.` : '';
}
