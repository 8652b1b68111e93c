/** What the line above the drawing says when the drawing isn't that of the text. */
import type { DrawnScene } from '../../server/protocol.js';

/** Nothing where the text has no fault; else what the drawing shows in spite of the faults. */
export function bannerOf({ faults, scene }: DrawnScene): string {
  if (faults === 0) return '';
  const many = faults === 1 ? 'a fault' : `${faults} faults`;
  return scene === undefined
    ? `The text has ${many}. This is the last drawing from before.`
    : `The text has ${many}. The drawing shows what could be made out.`;
}

/** Why there is no new drawing, and what is seen instead. `hasPicture` says that one was drawn before. */
export function bannerOfFailure(error: unknown, hasPicture: boolean): string {
  const message = error instanceof Error ? error.message : String(error);
  return `This text could not be drawn: ${message}.${hasPicture ? ' This is the last drawing from before.' : ''}`;
}
