/** A drawing with a change laid over it: shown by line style and letter, so that it reads without colours. */
import { baseLine, type Box, type Point, renderSvg, type Scene, type SvgOptions, wirePath } from '../../drawing/index.js';
import { escapeXml } from '../../escape.js';
import type { Kind } from '../change.js';
import { type Badge, badgeStyle } from './badge.js';
import { changeNotes } from './change-notes.js';
import type { Overlay } from './overlay.js';
import { type PlacedMark, placeMarks } from './place-marks.js';

const kinds: readonly Kind[] = ['new', 'gone', 'moved', 'changed'];

/** As `renderSvg`, with the marks over the drawing; below it what sounds otherwise, the key to the marks and their sentences. */
export function renderChange(scene: Scene, overlay: Overlay, options: SvgOptions = {}): string {
  const marks = placeMarks(scene, overlay.marks);
  const notes = changeNotes(scene, overlay, marks);
  return renderSvg(scene, {
    ...options,
    addition: {
      says: overlay.says,
      style: styleSheet,
      height: notes.height,
      under: marks.map(linesMarkup).join('\n'),
      markup: [...marks.map(wasMarkup), ...marks.map(badgesMarkup), notes.markup].join('\n'),
    },
  });
}

/** A broad line under the wire, an outline round the part. */
function linesMarkup({ mark, wires, outlines }: PlacedMark): string {
  const shapes = [
    ...wires.map((points) => `<path class="line" d="${wirePath(points)}"/>`),
    ...outlines.map((points) => `<path class="line outline" d="${path(points)}"/>`),
  ];
  return shapes.length === 0 ? '' : `<g class="change ${mark.kind}">${shapes.join('')}</g>`;
}

/** A thin line over the wires that it crosses, where nothing lies any more. */
function wasMarkup({ mark, was }: PlacedMark): string {
  return was === undefined ? '' : `<g class="change ${mark.kind}"><path class="was" d="${path(was)}"/></g>`;
}

function badgesMarkup({ mark, text, badge, wasBadge }: PlacedMark): string {
  const says = escapeXml(mark.says);
  const markup = `${badge ? badgeMarkup(badge, text) : ''}${wasBadge ? badgeMarkup(wasBadge, text, ' old') : ''}`;
  return markup === ''
    ? ''
    : `<g class="change ${mark.kind}" role="img" aria-label="${says}"><title>${says}</title>${markup}</g>`;
}

/** The letter with the number of its sentence, in a small plate. */
function badgeMarkup(badge: Badge, text: string, look = ''): string {
  const { leader } = badge;
  const line = leader === undefined ? '' : `<path class="leader" d="${path(leader)}"/>`;
  return `${line}<rect class="plate${look}" ${corner(badge)} rx="3"/><text class="bold" font-size="${badgeStyle.size}" x="${round(badge.x + badge.width / 2)}" y="${round(badge.y + 2.5 + baseLine(badgeStyle))}">${text}</text>`;
}

function corner({ x, y, width, height }: Box): string {
  return `x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}"`;
}

function path(points: readonly Point[]): string {
  return points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${round(x)} ${round(y)}`).join('');
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

/** Solid for new, dashes for gone, dash and dot for moved, dots for changed; where a line lay before it is thin. */
const styleSheet = [
  '.lugwork{--new:#136c34;--gone:#a3201b;--moved:#6a2fa8;--changed:#8a5a00}',
  '@media (prefers-color-scheme:dark){.lugwork:not(.light){--new:#7fd79b;--gone:#ff9d94;--moved:#c9a2f5;--changed:#e8bd62}}',
  '.lugwork.dark{--new:#7fd79b;--gone:#ff9d94;--moved:#c9a2f5;--changed:#e8bd62}',
  '@media print{.lugwork,.lugwork.dark,.lugwork:not(.light){--new:#136c34;--gone:#a3201b;--moved:#6a2fa8;--changed:#8a5a00}}',
  ...kinds.map((kind) => `.lugwork .change.${kind}{--mark:var(--${kind})}`),
  '.lugwork .change .line{fill:none;stroke:var(--mark);stroke-width:12;stroke-opacity:.6;stroke-linejoin:round}',
  '.lugwork .change .outline{stroke-width:2.4;stroke-opacity:1}',
  '.lugwork .change.moved .line{stroke-dasharray:14 5 4 5}',
  '.lugwork .change.changed .line{stroke-dasharray:4 5}',
  '.lugwork .change .was{fill:none;stroke:var(--mark);stroke-width:2.4;stroke-dasharray:9 6;stroke-linejoin:round}',
  '.lugwork .change.moved .was{stroke-width:2;stroke-dasharray:2 4}',
  '.lugwork .change .leader{fill:none;stroke:var(--mark);stroke-width:1.6}',
  '.lugwork .change .plate{fill:var(--paper);stroke:var(--mark);stroke-width:1.6}',
  '.lugwork .change .old{stroke-dasharray:2 2}',
  '.lugwork text.key{text-anchor:start}',
  '.lugwork .rule{stroke:var(--line);stroke-width:1}',
].join('');
