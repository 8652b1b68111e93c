/** Takes the pictures that are looked at. */
import { drawingGroups } from './drawing.js';
import { groups } from './pictures.js';
import { openScreen } from './screen.js';
import { sheetGroups } from './sheet.js';
import { compareGroups } from './compare.js';

/** Takes all pictures, or those whose name contains one of the words, and tells how many steps came and how many did not. */
export async function takeScreens(words: readonly string[]): Promise<{ passed: number; failed: number }> {
  const counts = { passed: 0, failed: 0 };
  const isWanted = (name: string): boolean => words.length === 0 || words.some((word) => name.includes(word));
  for (const { options, pictures } of [...groups, ...drawingGroups, ...sheetGroups, ...compareGroups]) {
    const wanted = Object.entries(pictures).filter(([name]) => isWanted(name));
    if (wanted.length === 0) continue;
    const screen = await openScreen(options);
    try {
      for (const [name, prepare] of wanted) {
        let problem = '';
        try {
          await prepare(screen);
          counts.passed++;
        } catch (error) {
          counts.failed++;
          problem = ` FAILED: ${error instanceof Error ? error.message : String(error)}`;
        }
        console.log(`${await screen.shot(name)}${problem}`);
      }
      counts.failed += screen.refused.length;
      for (const url of screen.refused) console.log(`FAILED: something outside this machine was asked for: ${url}`);
    } finally {
      await screen.close();
    }
  }
  return counts;
}
