/** A drawing with a change laid over it: shown by line style and letter, so that it reads without colours. */
import {
  baseLine,
  type Box,
  boxAround,
  fitText,
  grow,
  type Point,
  renderSvg,
  type Scene,
  type SvgOptions,
  textWidth,
} from '../../drawing/index.js';
import { pairwise } from '../../collections.js';
import { escapeXml } from '../../escape.js';
import type { Kind } from '../change.js';
import type { Overlay, OverlayMark } from './overlay.js';
import { capitalised } from '../../words.js';

const letters: Readonly<Record<Kind, string>> = { new: 'N', gone: 'G', moved: 'M', changed: 'C' };
const words: Readonly<Record<Kind, string>> = { new: 'new', gone: 'gone', moved: 'moved', changed: 'changed' };
const kinds: readonly Kind[] = ['new', 'gone', 'moved', 'changed'];
const line = 17;
const margin = 24;
const style = { size: 11 };

/** As `renderSvg`, with the marks over the drawing and their sentences in a list below it. */
export function renderChange(scene: Scene, overlay: Overlay, options: SvgOptions = {}): string {
  const marks = overlay.marks.map((mark, index) => ({ mark, number: index + 1 }));
  const room = marks.length === 0 ? 2 : 3 + marks.length;
  return renderSvg(scene, {
    ...options,
    addition: {
      says: overlay.says,
      style: styleSheet,
      height: room * line,
      under: marks.map(({ mark }) => linesMarkup(scene, mark)).join('\n'),
      markup: [...marks.map(({ mark, number }) => badgeMarkup(scene, mark, number)), listMarkup(scene, overlay, marks)].join(
        '\n',
      ),
    },
  });
}

interface NumberedMark {
  readonly mark: OverlayMark;
  readonly number: number;
}

interface Drawn {
  readonly wires: readonly (readonly Point[])[];
  readonly boxes: readonly Box[];
  /** Where it lay before; absent where one of its lugs is not drawn. */
  readonly was?: readonly [Point, Point];
}

function drawn(scene: Scene, mark: OverlayMark): Drawn {
  const [from, to] = (mark.was ?? []).map((id) => scene.parts.flatMap((part) => part.lugs).find((lug) => lug.id === id));
  return {
    wires: scene.wires.filter(({ id }) => mark.ids.includes(id)).map(({ points }) => points),
    boxes: scene.parts.filter(({ id }) => mark.ids.includes(id)).map(({ box }) => grow<Box>(box, 5)),
    ...(from !== undefined && to !== undefined ? { was: [from, to] as const } : {}),
  };
}

/** A broad line under the wire, an outline round the part, a line where nothing lies any more. */
function linesMarkup(scene: Scene, mark: OverlayMark): string {
  const { wires, boxes, was } = drawn(scene, mark);
  const shapes = [
    ...wires.map((points) => `<path class="line" d="${path(points)}"/>`),
    ...boxes.map(
      ({ x, y, width, height }) =>
        `<rect class="line" x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}" rx="6"/>`,
    ),
    ...(was === undefined ? [] : [`<path class="was" d="${path(was)}"/>`]),
  ];
  return shapes.length === 0 ? '' : `<g class="change ${mark.kind}">${shapes.join('')}</g>`;
}

function badgeMarkup(scene: Scene, mark: OverlayMark, number: number): string {
  const { wires, boxes, was } = drawn(scene, mark);
  const [wire] = wires;
  const [box] = boxes;
  const spot = wire !== undefined ? middle(wire) : box !== undefined ? { x: box.x + box.width, y: box.y } : was && middle(was);
  if (spot === undefined) return '';
  return `<g class="change ${mark.kind}" role="img" aria-label="${escapeXml(mark.says)}"><title>${escapeXml(mark.says)}</title>${badge(spot, `${letters[mark.kind]}${number}`)}</g>`;
}

/** The letter with the number of its sentence, in a small plate. */
function badge({ x, y }: Point, text: string): string {
  const width = textWidth(text, { size: 11, bold: true }) + 8;
  return `<rect class="plate" x="${round(x - width / 2)}" y="${round(y - 8)}" width="${round(width)}" height="16" rx="3"/><text class="bold" font-size="11" x="${round(x)}" y="${round(y - 8 + 2.5 + baseLine({ size: 11, bold: true }))}">${text}</text>`;
}

function listMarkup(scene: Scene, overlay: Overlay, marks: readonly NumberedMark[]): string {
  const top = scene.height + 4;
  const used = kinds.filter((kind) => overlay.marks.some((mark) => mark.kind === kind));
  const key = used.map((kind) => `${letters[kind]} ${words[kind]}`).join(', ');
  const lines = [
    `${capitalised(overlay.says)}.${key === '' ? '' : ` ${key}.`}`,
    ...marks.map(({ mark, number }) => `${letters[mark.kind]}${number}  ${mark.says}`),
  ];
  let x = margin;
  const y = round(top + line * (lines.length + 0.6));
  const samples = used.map((kind) => {
    const text = `${letters[kind]} ${words[kind]}`;
    const sample = `<g class="change ${kind}"><path class="line" d="M${round(x)} ${y}h40"/><text class="key" font-size="11" x="${round(x + 48)}" y="${round(y + 4)}">${text}</text></g>`;
    x += 48 + textWidth(text, style) + 24;
    return sample;
  });
  return `<g class="changes">${lines
    .map((text, index) => {
      const fitted = fitText(text, style, scene.width - 2 * margin);
      return `<text class="key${index === 0 ? ' bold' : ''}" font-size="11" x="${margin}" y="${round(top + index * line + baseLine(style))}">${escapeXml(fitted)}</text>`;
    })
    .join('')}${samples.join('')}</g>`;
}

/** The middle of the longest stretch. */
function middle(points: readonly Point[]): Point {
  const length = ([a, b]: readonly [Point, Point]): number => Math.hypot(b.x - a.x, b.y - a.y);
  const longest = pairwise(points).reduce((best, other) => (length(other) > length(best) ? other : best));
  const box = boxAround(longest);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
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
  '.lugwork .change .line{fill:none;stroke:var(--mark);stroke-width:2.4;stroke-linejoin:round}',
  '.lugwork .change path.line{stroke-width:12;stroke-opacity:.6;stroke-linejoin:round}',
  '.lugwork .change.moved .line{stroke-dasharray:14 5 4 5}',
  '.lugwork .change.changed .line{stroke-dasharray:4 5}',
  '.lugwork .change.gone .line{stroke-dasharray:9 6}',
  '.lugwork .change .was{fill:none;stroke:var(--mark);stroke-width:2.4;stroke-dasharray:9 6}',
  '.lugwork .change.moved .was{stroke-width:1.6;stroke-dasharray:2 5}',
  '.lugwork .change .plate{fill:var(--paper);stroke:var(--mark);stroke-width:1.6}',
  '.lugwork text.key{text-anchor:start}',
].join('');
