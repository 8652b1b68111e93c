/** A scene as SVG that stands alone: own fonts, own colours for light and dark, names for screen readers. It never sees a circuit. */
import { escapeXml } from '../../escape.js';
import type { Highlight } from '../highlight.js';
import type { Point } from '../geometry.js';
import type { Scene, SceneLug, SceneSample, SceneWire } from '../scene.js';
import { pillBox, type Label, type Shape } from '../shape.js';
import { wirePath } from '../wire-path.js';
import { styleSheet } from './svg-style.js';
import { baseLine, fitText, textWidth } from '../text-measure.js';

export interface SvgOptions {
  /** Which contacts are closed and what is lit, for one setting. */
  readonly highlight?: Highlight;
  /** Fixes the scheme; the reader's own where absent. */
  readonly scheme?: 'light' | 'dark';
  /** Something laid over the drawing, with room below it. */
  readonly addition?: SvgAddition;
  /** Stands before every id, so that several drawings can live in one page; nothing where absent. */
  readonly idPrefix?: string;
  /** Millimetres of the paper that it is printed on, where it is a page. */
  readonly paper?: { readonly width: number; readonly height: number };
}

/** Markup over a drawing, in its units; `says` is its summary for screen readers. */
export interface SvgAddition {
  readonly markup: string;
  /** Markup between parts and wires. */
  readonly under: string;
  readonly style: string;
  readonly height: number;
  readonly says: string;
}

const settingStyle = { size: 12, bold: true };

export function renderSvg(scene: Scene, options: SvgOptions = {}): string {
  const state = stateOf(options.highlight);
  const { addition } = options;
  const height = scene.height + (addition?.height ?? 0);
  const idOf = (id: string): string => escapeXml(`${options.idPrefix ?? ''}${id}`);
  const summary =
    addition?.says ??
    options.highlight?.says ??
    `${scene.parts.length} parts and ${scene.wires.length} joints, seen from the ${scene.side} side`;
  const classes = ['lugwork', ...(options.scheme ? [options.scheme] : []), ...(options.highlight ? ['played'] : [])].join(' ');
  const wires = scene.wires.map(
    (wire) =>
      `<g id="${idOf(wire.id)}" class="wire ${wire.kind}${wire.bare ? ' bare' : ''}${state(wire.id)}" role="img" aria-label="${escapeXml(wire.says)}">${title(wire.says)}${wireMarkup(wire)}</g>`,
  );
  const parts = scene.parts.map(
    (part) =>
      `<g id="${idOf(part.id)}" class="part${state(part.id)}" role="img" aria-label="${escapeXml(part.says)}">${title(part.says)}${part.shapes.map(shapeMarkup).join('')}${part.labels.map(labelMarkup).join('')}</g>`,
  );
  const contacts = scene.contacts.map(
    (contact) =>
      `<path id="${idOf(contact.id)}" class="contact${state(contact.id)}" d="${contact.lines.map((line) => pathData(line)).join('')}"/>`,
  );
  const lugs = scene.parts.flatMap((part) => part.lugs.map((lug) => lugMarkup(lug, idOf(lug.id), state(lug.id))));
  const joints = scene.joints.map(
    (joint) =>
      `<circle id="${idOf(joint.id)}" class="joint" cx="${number(joint.x)}" cy="${number(joint.y)}" r="${number(joint.radius)}"/>`,
  );
  const outlines = [...scene.groups, ...scene.channels].map(
    (group) =>
      `<g id="${idOf(group.id)}" class="group" role="img" aria-label="${escapeXml(group.says)}">${title(group.says)}${group.shapes.map(shapeMarkup).join('')}${group.labels.map(labelMarkup).join('')}</g>`,
  );
  const marks = scene.marks.map(
    (mark) =>
      `<g id="${idOf(mark.id)}" class="mark${state(mark.id)}" role="img" aria-label="${escapeXml(mark.says)}">${title(mark.says)}${mark.shapes.map(shapeMarkup).join('')}${mark.labels.map(labelMarkup).join('')}</g>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="${classes}" viewBox="0 0 ${scene.width} ${height}" ${sizeMarkup(options.paper, scene.width, height)} role="group" aria-labelledby="${idOf('drawing-title')} ${idOf('drawing-summary')}">`,
    `<title id="${idOf('drawing-title')}">${escapeXml(scene.title === '' ? 'Wiring drawing' : `Wiring of ${scene.title}`)}</title>`,
    `<desc id="${idOf('drawing-summary')}">${escapeXml(summary)}</desc>`,
    `<style>${styleSheet}${addition?.style ?? ''}</style>`,
    `<rect class="sheet" width="${scene.width}" height="${height}"/>`,
    group('groups', outlines),
    group('parts', parts),
    group('contacts', contacts),
    ...(addition === undefined ? [] : [addition.under]),
    group('wires', wires),
    group(
      'lacings',
      scene.lacings.map(({ id, points }) => lacingMarkup(idOf(id), pathData(points))),
    ),
    group('lugs', lugs),
    group('joints', joints),
    group('marks', marks),
    options.highlight && options.paper === undefined ? settingMarkup(scene, options.highlight.says) : '',
    `<g class="note">${scene.samples.map(sampleMarkup).join('')}${scene.notes.map(labelMarkup).join('')}</g>`,
    ...(addition === undefined ? [] : [addition.markup]),
    '</svg>',
    '',
  ].join('\n');
}

function sizeMarkup(paper: SvgOptions['paper'], width: number, height: number): string {
  return paper === undefined
    ? `width="${width}" height="${height}"`
    : `width="${number(paper.width)}mm" height="${number(paper.height)}mm"`;
}

function stateOf(highlight: Highlight | undefined): (id: string) => string {
  if (!highlight) return () => '';
  return (id) => (highlight.states[id] ?? []).map((state) => ` ${state}`).join('');
}

function group(name: string, items: readonly string[]): string {
  return items.length === 0 ? `<g class="${name}"/>` : `<g class="${name}">\n${items.join('\n')}\n</g>`;
}

function title(text: string): string {
  return `<title>${escapeXml(text)}</title>`;
}

/** The casing in the paper's colour lies under each wire, so that a later one visibly passes over an earlier. */
function wireMarkup(wire: Pick<SceneWire, 'colours' | 'bare' | 'twisted' | 'shielded' | 'points' | 'labels' | 'leader'>): string {
  const data = wirePath(wire.points);
  const [base, stripe] = wire.colours;
  const isPlain = base === undefined && !wire.bare;
  const path = (look: string): string => `<path class="${look}" d="${data}"/>`;
  // Of a screened wire whose colour is not given, only the screen is to be seen.
  const isHidden = wire.shielded && isPlain;
  return [
    path(wire.shielded ? 'casing broad' : 'casing'),
    path('glow'),
    wire.shielded ? path('sheath edge') + path('sheath') + path('braid') : '',
    isHidden ? '' : path('edge') + path(base === undefined ? 'core' : `core c-${base}`),
    isPlain && !isHidden ? path('plain') : '',
    stripe === undefined ? '' : path(`stripe c-${stripe}`),
    wire.twisted ? path('twist') + path('twist pale') : '',
    wire.leader === undefined ? '' : `<path class="leader" d="${pathData(wire.leader)}"/>`,
    wire.labels.map(pillMarkup).join(''),
  ].join('');
}

function pillMarkup(label: Label): string {
  const { x, y, width, height } = pillBox(label);
  return `<rect class="pill" x="${number(x)}" y="${number(y)}" width="${number(width)}" height="${number(height)}" rx="${number(height / 2)}"/>${labelMarkup(label)}`;
}

function lacingMarkup(id: string, data: string): string {
  return `<g id="${id}" class="lacing"><path class="lace-edge" d="${data}"/><path class="lace" d="${data}"/></g>`;
}

function lugMarkup(lug: SceneLug, id: string, state: string): string {
  const open = `<g id="${id}" class="terminal${state}" role="img" aria-label="${escapeXml(`lug ${lug.label}`)}">${title(lug.label)}`;
  if (lug.look === 'spot') return `${open}</g>`;
  return `${open}<circle class="lug" cx="${number(lug.x)}" cy="${number(lug.y)}" r="${number(lug.radius)}"/><circle class="hole" cx="${number(lug.x)}" cy="${number(lug.y)}" r="${number(lug.radius * 0.4)}"/></g>`;
}

function shapeMarkup(shape: Shape): string {
  const classes = `s s-${shape.role}`;
  if (shape.kind === 'circle')
    return `<circle class="${classes}" cx="${number(shape.x)}" cy="${number(shape.y)}" r="${number(shape.r)}"/>`;
  if (shape.kind === 'path') return `<path class="${classes}" d="${pathData(shape.points)}${shape.closed ? 'Z' : ''}"/>`;
  return `<rect class="${classes}" x="${number(shape.x)}" y="${number(shape.y)}" width="${number(shape.width)}" height="${number(shape.height)}" rx="${number(shape.radius)}"/>`;
}

function labelMarkup(label: Label): string {
  const style = { size: label.size, bold: label.bold };
  const classes = `t-${label.role}${label.bold ? ' bold' : ''}`;
  const [x, y] = [label.x + label.width / 2, label.y + label.height / 2];
  // The length is stated, so that a face with other widths still keeps to the label's box.
  const length = label.upright ? label.height : label.width;
  const across = label.upright ? label.width : label.height;
  const turn = label.upright ? ` transform="rotate(-90 ${number(x)} ${number(y)})"` : '';
  return `<text class="${classes}" font-size="${label.size}" x="${number(x)}" y="${number(y - across / 2 + baseLine(style))}" textLength="${number(length)}" lengthAdjust="spacingAndGlyphs"${turn}>${escapeXml(label.text)}</text>`;
}

function settingMarkup({ caption, width }: Scene, says: string): string {
  const text = fitText(says, settingStyle, width - 2 * caption.x);
  const y = caption.y + baseLine(settingStyle);
  return `<text class="setting bold" font-size="${settingStyle.size}" x="${number(caption.x)}" y="${number(y)}" textLength="${number(textWidth(text, settingStyle))}" lengthAdjust="spacingAndGlyphs">${escapeXml(text)}</text>`;
}

function sampleMarkup({ colours, look, points }: SceneSample): string {
  const bare = look === 'bare' || look === 'solder';
  const wire = { colours, bare, twisted: look === 'twisted', shielded: look === 'shielded', points, labels: [] };
  return `<g class="wire${look === 'solder' ? ' solder' : ''}${bare ? ' bare' : ''}">${wireMarkup(wire)}</g>`;
}

/** Straight from point to point. */
function pathData(points: readonly Point[]): string {
  return points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${number(x)} ${number(y)}`).join('');
}

function number(value: number): string {
  return String(Math.round(value * 100) / 100);
}
