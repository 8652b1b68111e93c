/** Takes the pictures that are looked at. */
import { drawingGroups } from './drawing.js';
import { groups } from './pictures.js';
import { openScreen, type Screen, type ScreenOptions } from './screen.js';
import { sheetGroups } from './sheet.js';
import { compareGroups } from './compare.js';
import { walkGroups } from './walk/index.js';
import type { Unready } from '../hosts/prepare.js';

interface Counts {
  passed: number;
  failed: number;
}

/**
 * Takes all pictures but the walk's, or those whose name contains one of the words, and counts them; a station of the walk only if the word begins with
 * `walk-`, since it follows from the one before. Those of an editor that can't run count as failed.
 */
export async function takeScreens(words: readonly string[], unready: Unready): Promise<Counts> {
  const counts = { passed: 0, failed: 0 };
  const notTaken = new Map<string, number>();
  const isWanted = (name: string): boolean =>
    name.startsWith('walk-')
      ? words.some((word) => word.startsWith('walk-') && name.startsWith(word))
      : words.length === 0 || words.some((word) => name.includes(word));
  for (const { options, pictures } of [...groups, ...drawingGroups, ...sheetGroups, ...compareGroups, ...walkGroups]) {
    const wanted = Object.entries(pictures).filter(([name]) => isWanted(name));
    if (wanted.length === 0) continue;
    const reason = unready.get(options.host);
    if (reason === undefined) await takeGroup(options, wanted, counts);
    else {
      const editor = `the ${options.host} editor (${reason})`;
      notTaken.set(editor, (notTaken.get(editor) ?? 0) + wanted.length);
      counts.failed += wanted.length;
    }
  }
  for (const [editor, count] of notTaken) console.log(`NOT RUN: ${count} pictures of ${editor}.`);
  return counts;
}

/** Takes the pictures of one editor. Where it does not open, or ends on the way, the pictures left count as failed. */
async function takeGroup(
  options: ScreenOptions,
  wanted: readonly [string, (screen: Screen) => Promise<void>][],
  counts: Counts,
): Promise<void> {
  let left = wanted.length;
  try {
    const screen = await openScreen(options);
    try {
      for (const [name, prepare] of wanted) {
        let problem = '';
        try {
          await prepare(screen);
        } catch (error) {
          problem = ` FAILED: ${error instanceof Error ? error.message : String(error)}`;
        }
        console.log(`${await screen.shot(name)}${problem}`);
        counts[problem === '' ? 'passed' : 'failed']++;
        left--;
      }
      counts.failed += screen.refused.length;
      for (const url of screen.refused) console.log(`FAILED: something outside this machine was asked for: ${url}`);
    } finally {
      await screen.close();
    }
  } catch (error) {
    counts.failed += Math.max(left, 1);
    const which = wanted.map(([name]) => name).join(', ');
    console.log(`FAILED: ${left} pictures of ${which}: ${error instanceof Error ? error.message : String(error)}`);
  }
}
