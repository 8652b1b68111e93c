/** How small a drawing's texts come out when it takes one page. */
import { sceneLabels, type Scene } from './scene.js';

/** Printable millimetres of A4 and Letter with margins of 10 mm, the longer side first. */
const pages = [
  [277, 190],
  [259.4, 195.9],
] as const;
const millimetresPerPoint = 25.4 / 72;

/** The least size of a text that is read without effort at the bench, in points. */
export const leastPoints = 6;

/** The smallest text in points when the drawing is scaled to fill the smaller of both pages, turned as it fits better; Infinity where nothing is written. */
export function smallestPoints(scene: Scene): number {
  const scale = Math.min(
    ...pages.map(([long, short]) =>
      Math.max(Math.min(long / scene.width, short / scene.height), Math.min(short / scene.width, long / scene.height)),
    ),
  );
  return (Math.min(...sceneLabels(scene).map(({ label }) => label.size)) * scale) / millimetresPerPoint;
}
