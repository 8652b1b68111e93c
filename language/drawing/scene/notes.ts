/** What stands around the picture: its title, the side it shows, the key to its lines, and the cautions. */
import { briefCautions } from '../../cautions.js';
import type { Diagram } from '../diagram/diagram.js';
import { inks, lettersOf } from '../palette.js';
import type { Picture, Scene, SceneSample, SceneWire } from '../scene.js';
import type { Label } from '../shape.js';
import { fitText, textHeight, textWidth, wrapText, type TextStyle } from '../text-measure.js';
import { shifted } from './transform.js';

const titleStyle: TextStyle = { size: 20, bold: true };
const subtitleStyle: TextStyle = { size: 13 };
const sideStyle: TextStyle = { size: 13 };
const keyStyle: TextStyle = { size: 11.5 };
const left = 24;
/** Between the title block's two sides. */
const between = 40;

const sides = {
  solder: 'Seen from behind, the side the iron comes to',
  player: 'Seen from the player’s side, a mirror image of the solder side',
} as const;

/** What the host knows of the text: its file's name, its revision and its date, each where there is one. */
export interface SheetNotes {
  readonly file?: string;
  readonly revision?: string;
  readonly date?: string;
}

/** The picture with its notes, everything on one sheet. */
export function withNotes(
  picture: Picture,
  { title, subtitle, date }: Pick<Diagram, 'title' | 'subtitle' | 'date'>,
  side: Scene['side'],
  sheet: SheetNotes = {},
): Omit<Scene, 'version'> {
  const notes: Label[] = [];
  const write = writerOf(notes);
  const width = Math.max(picture.width, 640);
  const known = [sheet.revision === undefined ? undefined : `rev ${sheet.revision}`, sheet.date ?? date, sheet.file];
  const about = known.filter((text) => text !== undefined && text !== '').join(' · ');
  const right = [
    { text: sides[side], style: sideStyle },
    ...(about === '' ? [] : [{ text: fitText(about, keyStyle, width - 2 * left), style: keyStyle }]),
  ];
  const rightWidth = Math.max(...right.map(({ text, style }) => textWidth(text, style)));
  const room = width - 2 * left - rightWidth - between;
  const isBeside = room > 240;
  let top = 20;
  const lines = (texts: readonly string[], style: TextStyle): void => {
    for (const text of texts) top = bottomOf(write(fitText(text, style, width - 2 * left), style, left, top)) + 6;
  };
  const leftRoom = isBeside ? room : width - 2 * left;
  if (title !== '') lines([fitText(title, titleStyle, leftRoom)], titleStyle);
  if (subtitle !== '') lines(shortened(wrapText(subtitle, subtitleStyle, leftRoom), 2), subtitleStyle);
  let beside = isBeside ? 24 : top;
  for (const { text, style } of right) {
    const x = isBeside ? width - left - textWidth(text, style) : left;
    beside = bottomOf(write(text, style, x, beside)) + 6;
  }
  top = Math.max(top, beside);
  // Kept free for the setting that an overlay shows.
  const caption = { x: left, y: top };
  top += 18;

  const entries = keyEntries(picture);
  const samples: SceneSample[] = [];
  let [x, y] = [left, top + picture.height + 10];
  for (const entry of entries) {
    const needed = 34 + textWidth(entry.text, keyStyle) + 22;
    if (x + needed > width - left && x > left) [x, y] = [left, y + 18];
    const label = write(entry.text, keyStyle, x + 34, y);
    const middle = label.y + label.height / 2;
    samples.push({
      colours: entry.colours,
      look: entry.look,
      points: [
        { x, y: middle },
        { x: x + 28, y: middle },
      ],
    });
    x += needed;
  }
  y += entries.length > 0 ? 24 : 0;
  for (const caution of [...readingHelp(picture), ...briefCautions]) {
    for (const line of wrapText(caution, keyStyle, width - 2 * left)) y = bottomOf(write(line, keyStyle, left, y)) + 4;
  }
  return { ...shifted(picture, { x: 0, y: top }), title, side, width, height: Math.ceil(y + 16), caption, notes, samples };
}

/** Adds a line of text to the notes, by its left upper corner. */
function writerOf(notes: Label[]): (text: string, style: TextStyle, x: number, y: number) => Label {
  return (text, style, x, y) => {
    const size = { width: textWidth(text, style), height: textHeight(text, style) };
    const label: Label = { text, size: style.size, bold: style.bold === true, role: 'note', upright: false, x, y, ...size };
    notes.push(label);
    return label;
  };
}

interface KeyEntry {
  readonly text: string;
  readonly colours: readonly string[];
  readonly look: SceneSample['look'];
}

/** What is used in this picture, colours in the order of the standard's table. */
function keyEntries({ wires }: Picture): KeyEntry[] {
  const order = Object.keys(inks);
  const colours = [...new Set(wires.filter((wire) => wire.colours.length > 0).map((wire) => wire.colours.join('-')))];
  const rank = (colour: string): number => order.indexOf(colour.replace(/-.*/, ''));
  colours.sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
  const looks: readonly (readonly [string, SceneSample['look'], (wire: SceneWire) => boolean])[] = [
    [
      'colour not given',
      'plain',
      (wire) => (wire.kind === 'wire' || wire.kind === 'ground') && wire.colours.length === 0 && !wire.bare,
    ],
    ['bare', 'bare', (wire) => wire.bare && wire.kind !== 'solder'],
    ['direct joint, no wire', 'solder', (wire) => wire.kind === 'solder'],
    ['shielded', 'shielded', (wire) => wire.shielded],
    ['twisted', 'twisted', (wire) => wire.twisted],
  ];
  return [
    ...colours.map((colour): KeyEntry => ({ text: `${lettersOf(colour)} ${colour}`, colours: colour.split('-'), look: 'wire' })),
    ...looks.filter(([, , isSuch]) => wires.some(isSuch)).map(([text, look]): KeyEntry => ({ text, colours: [], look })),
  ];
}

/** What has to be known to read this picture, and only of what is in it. */
function readingHelp(picture: Picture): string[] {
  const { marks, channels, wires, parts, joints, lacings } = picture;
  const texts = [...wires, ...marks].flatMap(({ labels }) => labels.map(({ text }) => text));
  const soldered = new Set(joints.map((joint) => joint.lug));
  const signs = [
    ...(texts.some((text) => /^L\d/u.test(text)) ? ['L = lead of the part'] : []),
    ...(texts.some((text) => /^W\d/u.test(text)) ? ['W = wire off the reel, numbers as in the cut list'] : []),
    ...(joints.length > 0 ? ['grey dot = solder'] : []),
    ...(parts.some(({ lugs }) => lugs.some(({ id, look }) => look === 'lug' && !soldered.has(id)))
      ? ['open hole = lug not used']
      : []),
    ...(lacings.length > 0 ? ['cream band = lacing'] : []),
  ];
  return [
    ...(signs.length > 0 ? [`${signs.join(' · ')}.`] : []),
    ...(marks.some(({ id }) => id.startsWith('mark:'))
      ? ['A mark at a lug is a wire to ground: it has its number and the lug that it goes to.']
      : []),
    ...(marks.some(({ id }) => id.startsWith('leaves:')) ? ['A mark at a wire’s end says where it goes on.'] : []),
    ...(channels.length > 0
      ? ['Wires between cavities run through the channels, which are drawn wide enough to tell the wires apart.']
      : []),
  ];
}

/** So many lines, the rest of them cut. */
function shortened(lines: readonly string[], most: number): string[] {
  return lines.length <= most ? [...lines] : [...lines.slice(0, most - 1), `${lines[most - 1] ?? ''} …`];
}

function bottomOf(label: Label): number {
  return Math.ceil(label.y + label.height);
}
