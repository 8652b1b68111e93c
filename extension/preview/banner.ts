/** What the line above the drawing says when the drawing isn't that of the text. */
import type { DrawnScene } from '../../server/protocol.js';
import type { Translate } from '../localize.js';

/** Nothing where the text has no error; else what the drawing shows in spite of the errors. */
export function bannerOf({ faults, scene }: DrawnScene, t: Translate): string {
  if (faults === 0) return '';
  if (scene === undefined)
    return faults === 1
      ? t('The text has an error. This is the last complete drawing.')
      : t('The text has {0} errors. This is the last complete drawing.', faults);
  return faults === 1
    ? t('The text has an error. The drawing shows only what could be read.')
    : t('The text has {0} errors. The drawing shows only what could be read.', faults);
}

/** Why there is no new drawing, and what is seen instead. `hasPicture` says that one was drawn before. */
export function bannerOfFailure(error: unknown, hasPicture: boolean, t: Translate): string {
  const message = error instanceof Error ? error.message : String(error);
  return hasPicture
    ? t('This text could not be drawn: {0}. This is the last complete drawing.', message)
    : t('This text could not be drawn: {0}.', message);
}
