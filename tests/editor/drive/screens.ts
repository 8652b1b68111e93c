/** The pictures that are looked at: one function each, in a fresh editor for each group. */
import { openScreen, type Screen, type ScreenOptions } from './screen.js';

interface Group {
  readonly options: ScreenOptions;
  readonly pictures: Readonly<Record<string, (screen: Screen) => Promise<void>>>;
}

const groups: readonly Group[] = [
  {
    options: { host: 'node' },
    pictures: {
      'circuit-dark': async (screen) => {
        await screen.openFile('two-pickups.lug');
        await screen.page.locator('.monaco-workbench .statusbar').getByText('Lugwork').waitFor();
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
