/** A newcomer's walk through the whole extension, once in each theme and once by keyboard alone: `npm run walk`. */
import type { Group } from '../pictures.js';
import { beginning } from './begin.js';
import { atTheBench } from './bench.js';
import { inTheDrawing } from './drawing.js';
import { byKeyboard } from './keyboard.js';
import { committedExamples, type Stations } from './place.js';
import { reviewed } from './review.js';
import { inTheText } from './text.js';

const size = { width: 1600, height: 1000 };
const themes = {
  light: 'Default Light Modern',
  dark: 'Default Dark Modern',
  contrast: 'Default High Contrast',
};

/** Stretches of the walk, each in a fresh editor, so that what fails in one is not met again in the next. */
const stretches = {
  begin: beginning,
  text: inTheText,
  drawing: inTheDrawing,
  bench: atTheBench,
  review: reviewed,
  keyboard: byKeyboard,
};

/** One editor a theme and stretch; stations are numbered in the order of the walk. */
export const walkGroups: readonly Group[] = Object.entries(themes).flatMap(([theme, name]) =>
  Object.entries(stretches).map(([stretch, stations]): Group => ({
    options: {
      host: 'node',
      greeted: stretch === 'begin',
      get workspace() {
        return committedExamples();
      },
      size,
      settings: { 'workbench.colorTheme': name, 'git.enabled': true },
    },
    pictures: numbered(`walk-${theme}-${stretch}`, stations),
  })),
);

function numbered(name: string, stations: Stations): Stations {
  return Object.fromEntries(
    Object.entries(stations).map(([station, reach], at) => [`${name}-${String(at + 1).padStart(2, '0')}-${station}`, reach]),
  );
}
