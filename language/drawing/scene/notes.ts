/** What stands around the picture: its title, the side it shows, the key to its lines, and the cautions. */
import { briefCautions } from '../../cautions.js';
import { inks, lettersOf } from '../palette.js';
import type { Picture, Scene, SceneSample, SceneWire } from '../scene.js';
import type { Label } from '../shape.js';
import { fitText, textHeight, textWidth, wrapText, type TextStyle } from '../text-measure.js';
import { shifted } from './transform.js';

const titleStyle: TextStyle = { size: 18, bold: true };
const sideStyle: TextStyle = { size: 12 };
const keyStyle: TextStyle = { size: 10.5 };
const left = 24;

const sides = {
  solder: 'Seen from the solder side: the side you solder on.',
  player: 'Seen from the player’s side: a mirror image of the solder side.',
} as const;

/** The picture with its notes, everything on one sheet. */
export function withNotes(picture: Picture, title: string, side: Scene['side']): Omit<Scene, 'version'> {
  const notes: Label[] = [];
  const write = (text: string, style: TextStyle, x: number, y: number): Label => {
    const label: Label = {
      text,
      size: style.size,
      bold: style.bold === true,
      role: 'note',
      upright: false,
      x,
      y,
      width: textWidth(text, style),
      height: textHeight(text, style),
    };
    notes.push(label);
    return label;
  };
  const width = Math.max(picture.width, 640);
  let top = 20;
  if (title !== '') top = bottomOf(write(fitText(title, titleStyle, width - 2 * left), titleStyle, left, top)) + 6;
  top = bottomOf(write(sides[side], sideStyle, left, top)) + 4;
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
    ['no letters: no colour given', 'plain', (wire) => wire.kind === 'wire' && wire.colours.length === 0 && !wire.bare],
    ['bare wire or lead', 'bare', (wire) => wire.bare && wire.kind !== 'solder'],
    ['direct joint, no wire', 'solder', (wire) => wire.kind === 'solder'],
    ['shielded', 'shielded', (wire) => wire.shielded],
    ['twisted', 'twisted', (wire) => wire.twisted],
  ];
  return [
    ...colours.map((colour): KeyEntry => ({ text: `${lettersOf(colour)} ${colour}`, colours: colour.split('-'), look: 'wire' })),
    ...looks.filter(([, , isSuch]) => wires.some(isSuch)).map(([text, look]): KeyEntry => ({ text, colours: [], look })),
  ];
}

/** What has to be known to read this picture. */
function readingHelp({ marks, channels }: Picture): string[] {
  return [
    ...(marks.length > 0 ? ['A ground mark replaces a wire to the lug that it names.'] : []),
    ...(channels.length > 0
      ? ['Wires between cavities run through the channels, which are drawn wide enough to tell the wires apart.']
      : []),
  ];
}

function bottomOf(label: Label): number {
  return Math.ceil(label.y + label.height);
}
