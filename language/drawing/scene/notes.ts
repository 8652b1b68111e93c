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

/** How notes are set on a printed page; on a screen the picture says how wide they are. */
export interface NotesOnPage {
  /** Drawing units, from margin to margin. */
  readonly width: number;
  /** By how much all of it is larger than on a screen. */
  readonly scale: number;
  /** Further lines of the title block: which page it is, which setting is shown. */
  readonly lines: readonly string[];
}

/** The picture with its notes, everything on one sheet. */
export function withNotes(
  picture: Picture,
  { title, subtitle, date }: Pick<Diagram, 'title' | 'subtitle' | 'date'>,
  side: Scene['side'],
  sheet: SheetNotes = {},
  page?: NotesOnPage,
): Omit<Scene, 'version'> {
  const notes: Label[] = [];
  const write = writerOf(notes);
  const { width, scale, left, head, captionHeight, foot } = page === undefined ? onScreen(picture) : onPaper(page);
  const scaled = (style: TextStyle): TextStyle => ({ ...style, size: style.size * scale });
  const inner = width - 2 * left;
  const key = scaled(keyStyle);
  const known = [sheet.revision === undefined ? undefined : `rev ${sheet.revision}`, sheet.date ?? date, sheet.file];
  const about = known.filter((text) => text !== undefined && text !== '').join(' · ');
  const right = [
    { text: sides[side], style: scaled(sideStyle) },
    ...[...(page?.lines ?? []), about].flatMap((text) => (text === '' ? [] : { text: fitText(text, key, inner), style: key })),
  ];
  const rightWidth = Math.max(...right.map(({ text, style }) => textWidth(text, style)));
  const room = inner - rightWidth - between * scale;
  const isBeside = room > 240 * scale;
  let top = head;
  const lines = (texts: readonly string[], style: TextStyle): void => {
    for (const text of texts) top = bottomOf(write(fitText(text, style, inner), style, left, top)) + 6 * scale;
  };
  const leftRoom = isBeside ? room : inner;
  const [titleOn, subtitleOn] = [scaled(titleStyle), scaled(subtitleStyle)];
  if (title !== '') lines([fitText(title, titleOn, leftRoom)], titleOn);
  if (subtitle !== '') lines(shortened(wrapText(subtitle, subtitleOn, leftRoom), 2), subtitleOn);
  let beside = isBeside ? left : top;
  for (const { text, style } of right) {
    const x = isBeside ? width - left - textWidth(text, style) : left;
    beside = bottomOf(write(text, style, x, beside)) + 6 * scale;
  }
  top = Math.max(top, beside);
  const caption = { x: left, y: top };
  top += captionHeight;

  const { samples, bottom } = writeKey(picture, write, { left, inner, scale, top: top + picture.height + 10 * scale });
  let y = bottom;
  for (const caution of [...readingHelp(picture), ...briefCautions]) {
    for (const line of wrapText(caution, key, inner)) y = bottomOf(write(line, key, left, y)) + 4 * scale;
  }
  const by = { x: page === undefined ? 0 : (width - picture.width) / 2, y: top };
  const height = Math.ceil(y + foot);
  return { ...shifted(picture, by), title, side, width, height, caption, notes, samples };
}

interface Frame {
  readonly width: number;
  readonly scale: number;
  /** Free at the side, above and below. */
  readonly left: number;
  readonly head: number;
  readonly foot: number;
  /** Below the title block. */
  readonly captionHeight: number;
}

/** Room is kept for the setting that an overlay shows. */
function onScreen(picture: Picture): Frame {
  return { width: Math.max(picture.width, 640), scale: 1, left: 24, head: 20, captionHeight: 18, foot: 16 };
}

/** Paper has its own margins, and the setting is in the title block. */
function onPaper({ width, scale }: NotesOnPage): Frame {
  return { width, scale, left: 0, head: 0, captionHeight: 4 * scale, foot: 0 };
}

/** The samples of lines with their texts, in as many rows as they need. */
function writeKey(
  picture: Picture,
  write: ReturnType<typeof writerOf>,
  { left, inner, scale, top }: { readonly left: number; readonly inner: number; readonly scale: number; readonly top: number },
): { readonly samples: readonly SceneSample[]; readonly bottom: number } {
  const entries = keyEntries(picture);
  const style = { ...keyStyle, size: keyStyle.size * scale };
  const samples: SceneSample[] = [];
  let [x, y] = [left, top];
  for (const entry of entries) {
    const needed = 56 * scale + textWidth(entry.text, style);
    if (x + needed > left + inner && x > left) [x, y] = [left, y + 18 * scale];
    const label = write(entry.text, style, x + 34 * scale, y);
    const middle = label.y + label.height / 2;
    samples.push({
      colours: entry.colours,
      look: entry.look,
      points: [
        { x, y: middle },
        { x: x + 28 * scale, y: middle },
      ],
    });
    x += needed;
  }
  return { samples, bottom: y + (entries.length > 0 ? 24 * scale : 0) };
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
    ...(wires.some(({ leader }) => leader !== undefined) ? ['dotted line = from a label to its wire'] : []),
  ];
  return [
    ...(signs.length > 0 ? [`${signs.join(' · ')}.`] : []),
    ...(marks.some(({ id }) => id.startsWith('mark:'))
      ? ['A mark at a lug is a wire to ground: it has its number and the lug that it goes to.']
      : []),
    ...(marks.some(({ id }) => id.startsWith('leaves:')) ? ['A mark at a wire’s end says where it goes on.'] : []),
    ...(marks.some(({ id }) => id.startsWith('page:'))
      ? ['Each dashed outline is a page, with its number; values, lugs, wire numbers and marks are on the pages.']
      : []),
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
