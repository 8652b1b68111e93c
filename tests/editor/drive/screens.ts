/** The pictures that are looked at: one function each, in a fresh editor for each group. */
import { openScreen, type Screen, type ScreenOptions } from './screen.js';

interface Group {
  readonly options: ScreenOptions;
  readonly pictures: Readonly<Record<string, (screen: Screen) => Promise<void>>>;
}

const dark = { 'workbench.colorTheme': 'Default Dark Modern' };

const groups: readonly Group[] = [
  {
    options: { host: 'node' },
    pictures: {
      'circuit-light': async (screen) => {
        await screen.openFile('two-pickups.lug');
        await screen.page.locator('.statusbar').getByText('Lugwork').waitFor();
      },
      'status-item': async ({ page }) => {
        await page.locator('.statusbar [id="status.languageStatus"]').hover();
        await page.locator('.hover-language-status').getByText('Lugwork: Ready').waitFor();
      },
      walkthrough: async (screen) => {
        await screen.command('Welcome: Open Walkthrough...');
        await screen.pick('Wire a guitar as text');
        await screen.page.locator('.gettingStartedContainer').getByText('Begin with a circuit').waitFor();
      },
    },
  },
  {
    options: { host: 'node', settings: dark },
    pictures: {
      'circuit-dark': async (screen) => {
        await screen.openFile('two-pickups.lug');
        await screen.page.locator('.statusbar').getByText('Lugwork').waitFor();
      },
      'markdown-block': async (screen) => {
        await screen.openFile('notes.md');
      },
    },
  },
];

/** Takes all pictures, or those whose name contains one of the words. */
export async function takeScreens(words: readonly string[]): Promise<void> {
  const isWanted = (name: string): boolean => words.length === 0 || words.some((word) => name.includes(word));
  for (const { options, pictures } of groups) {
    const wanted = Object.entries(pictures).filter(([name]) => isWanted(name));
    if (wanted.length === 0) continue;
    const screen = await openScreen(options);
    try {
      for (const [name, prepare] of wanted) {
        try {
          await prepare(screen);
        } finally {
          console.log(await screen.shot(name));
        }
      }
      for (const url of screen.refused) console.log(`refused: ${url}`);
    } finally {
      await screen.close();
    }
  }
}
