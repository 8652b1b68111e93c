/** Small drawings of the controls, black on white, in millimetres: where the handle is. */
import { linesOf, mm, SMALLEST, text } from '../papers/paper.js';
import type { Control, ControlKind, State } from './controls.js';

/** Width and height of one drawing, the height with its name below, and how many are beside each other. */
const WIDTH = 16;
const HEIGHT = 9;
const ROW = HEIGHT + 3.6;
const MOST = 3;
const MIDDLE = { x: WIDTH / 2, y: HEIGHT / 2 } as const;

/** The switches of one row, each with its name. */
export function statePicture(states: readonly State[]): string {
  return svgOf(states.map(({ control, position }) => named(control.name, shapeOf(control, position))));
}

/** A control at rest, or in its first position. */
export function controlPicture(control: Control): string {
  return svgOf([shapeOf(control, control.device?.rest ?? 0)], HEIGHT);
}

/** A round hole with a plug's hole in it. */
export function jackPicture(): string {
  return svgOf([[circle(MIDDLE.x, MIDDLE.y, 3.6, 'none'), circle(MIDDLE.x, MIDDLE.y, 1.7, '#000')]], HEIGHT);
}

function named(name: string, shapes: readonly string[]): string[] {
  const [words = ''] = linesOf(name, SMALLEST, WIDTH, 1);
  return [...shapes, text(MIDDLE.x, ROW - 1, words, { size: SMALLEST + 0.01, anchor: 'middle' })];
}

function svgOf(pictures: readonly (readonly string[])[], each = ROW): string {
  if (pictures.length === 0) return '';
  const [width, height] = [WIDTH * Math.min(MOST, pictures.length), each * Math.ceil(pictures.length / MOST)];
  const cells = pictures.map(
    (shapes, index) =>
      `<g transform="translate(${mm((index % MOST) * WIDTH)} ${mm(Math.floor(index / MOST) * each)})">${shapes.join('')}</g>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}" font-family="system-ui, Liberation Sans, Arial, sans-serif" aria-hidden="true">${cells.join('')}</svg>`;
}

function shapeOf({ kind, device, shafts }: Control, position: number): readonly string[] {
  const count = device?.positions.length ?? 0;
  const [shaft] = shafts;
  if (kind === 'knob')
    return shafts.length > 1 ? stacked(shaft?.turn === 'left') : knob(shaft?.rest ?? 10, shaft?.turn === 'left');
  const drawn = count < 4 || kind === 'lever' || kind === 'rotary switch' ? kind : 'switch';
  return SHAPES[drawn](position, count, device?.positions[position]?.key ?? '');
}

type Shape = (position: number, count: number, key: string) => readonly string[];

const SHAPES: Readonly<Record<Exclude<ControlKind, 'knob'>, Shape>> = {
  lever: (position, count) => {
    const at = (index: number): number => 2.2 + (11.6 * index) / Math.max(1, count - 1);
    const notches = Array.from({ length: count }, (_, index) => stroke(at(index), 6.2, at(index), 7.8, 0.3));
    return [box(0.8, 3.2, 14.4, 2.2, 'none'), ...notches, circle(at(position), 4.3, 1.7, '#000')];
  },
  toggle: (position, count) => bat(2.6, 3.3, shareOf(position, count)),
  'small switch': (position, count) => bat(1.8, 2.9, shareOf(position, count)),
  'on-off switch': (position, count) => bat(1.8, 2.9, shareOf(position, count)),
  slide: (position, count) => [box(2.5, 3, 11, 3.4, 'none'), box(6 + 3.5 * shareOf(position, count), 3, 4, 3.4, '#000')],
  'rotary switch': (position, count) => {
    const angle = (index: number): number => 30 * index - 15 * (count - 1);
    const ticks = Array.from({ length: count }, (_, index) => ray(angle(index), 3.3, 4.1, 0.3));
    return [circle(MIDDLE.x, MIDDLE.y, 2.8, 'none'), ...ticks, ray(angle(position), 0, 2.8, 0.8)];
  },
  'pull knob': liftedKnob,
  'push knob': liftedKnob,
  button: (_, __, key) => {
    const isIn = key === 'pressed';
    const arrow = isIn
      ? [
          stroke(MIDDLE.x, 0.8, MIDDLE.x, 4.4, 0.4),
          stroke(MIDDLE.x - 1.2, 3, MIDDLE.x, 4.6, 0.4),
          stroke(MIDDLE.x + 1.2, 3, MIDDLE.x, 4.6, 0.4),
        ]
      : [];
    return [stroke(1, 7.6, 15, 7.6, 0.5), box(MIDDLE.x - 2.5, isIn ? 6.4 : 4.2, 5, isIn ? 1.2 : 3.4, '#000'), ...arrow];
  },
  switch: (position, count) => {
    const columns = Math.min(count, 6);
    return Array.from({ length: count }, (_, index) =>
      circle(
        MIDDLE.x + 2.4 * ((index % columns) - (columns - 1) / 2),
        3 + 2.6 * Math.floor(index / columns),
        0.9,
        index === position ? '#000' : 'none',
      ),
    );
  },
};

/** Its shaft comes out of the plate, by a pull or by a push. */
function liftedKnob(_: number, __: number, key: string): readonly string[] {
  const top = key === 'up' ? 0.8 : 4.2;
  return [stroke(1, 7.6, 15, 7.6, 0.5), stroke(MIDDLE.x, 7.6, MIDDLE.x, top, 1.2), box(MIDDLE.x - 3.5, top, 7, 3, '#000')];
}

/** −1 for the first position, 1 for the last. */
function shareOf(position: number, count: number): number {
  return count < 2 ? 0 : (2 * position) / (count - 1) - 1;
}

/** A nut with the handle up, towards you, or down. */
function bat(nut: number, reach: number, share: number): string[] {
  const end = MIDDLE.y + reach * share;
  return [
    circle(MIDDLE.x, MIDDLE.y, nut, 'none'),
    stroke(MIDDLE.x, MIDDLE.y, MIDDLE.x, end, 1.3),
    circle(MIDDLE.x, end, 0.95, '#000'),
  ];
}

/** Seen from above, its pointer where it rests; 0 to 10 is 300°. */
function knob(rotation: number, isLeft: boolean): string[] {
  const angle = (isLeft ? -1 : 1) * (30 * rotation - 150);
  return [circle(MIDDLE.x, MIDDLE.y, 3.2, 'none'), ray(-150, 3.6, 4.3, 0.3), ray(150, 3.6, 4.3, 0.3), ray(angle, 0.6, 3.2, 0.8)];
}

/** Two knobs, one on the other. */
function stacked(isLeft: boolean): string[] {
  const full = isLeft ? -150 : 150;
  return [
    circle(MIDDLE.x, MIDDLE.y, 3.8, 'none'),
    circle(MIDDLE.x, MIDDLE.y, 2.2, 'none'),
    ray(full, 2.4, 3.8, 0.8),
    ray(full, 0.6, 2.2, 0.8),
  ];
}

/** A line from the middle outwards, degrees from straight up, clockwise. */
function ray(degrees: number, from: number, to: number, width: number): string {
  const [x, y] = [Math.sin((degrees * Math.PI) / 180), -Math.cos((degrees * Math.PI) / 180)];
  return stroke(MIDDLE.x + from * x, MIDDLE.y + from * y, MIDDLE.x + to * x, MIDDLE.y + to * y, width);
}

function stroke(x1: number, y1: number, x2: number, y2: number, width: number): string {
  return `<line x1="${mm(x1)}" y1="${mm(y1)}" x2="${mm(x2)}" y2="${mm(y2)}" stroke="#000" stroke-width="${width}"/>`;
}

function circle(x: number, y: number, radius: number, fill: string): string {
  return `<circle cx="${mm(x)}" cy="${mm(y)}" r="${mm(radius)}" fill="${fill}" stroke="#000" stroke-width="0.3"/>`;
}

function box(x: number, y: number, width: number, height: number, fill: string): string {
  return `<rect x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}" rx="0.6" fill="${fill}" stroke="#000" stroke-width="0.3"/>`;
}
