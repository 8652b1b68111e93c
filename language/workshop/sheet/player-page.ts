/** A page for the player, without circuit words: what each position gives, whether it hums, what the knobs do, what was changed. */
import { elementById, shaftById, type Arrangement, type PartId } from '../../circuit/model.js';
import { effectsAnywhere, positionTable, type ControlRole, type PositionRow } from '../../electrics/index.js';
import type { Build } from '../build.js';
import { mergedRows } from './merge-rows.js';
import { titleOf } from '../wording.js';
import type { Block, Section, Sheet } from './sheet-model.js';
import { capitalised, listed } from '../../words.js';

/** The page as a sheet, for the same renderers. */
export function playerPage(build: Build): Sheet {
  const { record } = build;
  const changed: Block[] = record === undefined || record.changed.length === 0 ? [] : [{ kind: 'list', items: record.changed }];
  const sections: Section[] = [
    { title: 'What was changed', blocks: changed },
    { title: 'What each position gives', blocks: positionBlocks(build) },
    { title: 'What the knobs do', blocks: knobBlocks(build) },
    {
      title: 'If something differs from this page',
      blocks: [
        {
          kind: 'list',
          items: [
            'Try another lead and another amplifier first.',
            'When you touch the strings, the hum should get quieter or stay the same. If it gets louder, or if you ever feel a tingle, stop playing, unplug, and have the amplifier and the outlet tested.',
            'Bring the instrument in with this page.',
          ],
        },
      ],
    },
  ];
  const by = [record?.by, record?.date].filter((text) => text !== undefined).join(', ');
  return {
    title: titleOf(build, record?.number, 'Your instrument'),
    fields: [],
    cautions: [
      'The strings are connected to the amplifier to keep hum down. A faulty amplifier or mains outlet can make that lethal: have both tested by a licensed electrician, use an outlet with an RCD (GFCI), and follow the local code.',
      'Unplug the instrument before anyone opens it.',
    ],
    sections: [
      ...(by === '' ? [] : [{ title: 'Done by', blocks: [{ kind: 'text' as const, text: by }] }]),
      ...sections.filter(({ blocks }) => blocks.length > 0),
    ],
  };
}

function positionBlocks(build: Build): Block[] {
  const { rows } = positionTable(build.circuit);
  const answer = (row: PositionRow): string => JSON.stringify([row.sound.silent, row.sound.text, row.sound.hum]);
  const positions = mergedRows(build.circuit, rows, answer).map(({ row, setting }) => [
    setting.replaceAll('"', ''),
    row.sound.silent || row.sound.arrangement === undefined ? silence(row) : capitalised(heard(build, row.sound.arrangement)),
    row.sound.silent ? '' : (HUM[row.sound.hum] ?? ''),
  ]);
  return positions.length === 0 ? [] : [{ kind: 'table', heads: ['position', 'you hear', 'hum'], rows: positions }];
}

function silence({ sound }: PositionRow): string {
  return sound.silent ? 'Nothing: the instrument is muted' : 'Several pickups, not all equally loud';
}

const HUM: Readonly<Record<string, string>> = {
  cancelled: 'quiet',
  present: 'hums near lamps and transformers, as pickups of this kind do',
  none: 'quiet',
};

/** What sounds, in a player's words. */
function heard(build: Build, arrangement: Arrangement): string {
  const text = plainly(build, arrangement);
  return arrangement.kind !== 'pickup' && arrangement.kind !== 'coil' && hasReversed(arrangement)
    ? `${text}, working against each other: thin and hollow`
    : text;
}

function plainly(build: Build, arrangement: Arrangement): string {
  if (arrangement.kind === 'pickup') return `the ${nameOf(build, arrangement.part)}`;
  if (arrangement.kind === 'coil') {
    const { part } = elementById(build.circuit, arrangement.coil);
    const coils = build.circuit.elements.filter((element) => element.kind === 'coil' && element.part === part).length;
    return coils > 1 ? `half of the ${nameOf(build, part)}` : `the ${nameOf(build, part)}`;
  }
  const [part, other] = new Set(partsIn(build, arrangement));
  const isOne = part !== undefined && other === undefined;
  const members = isOne
    ? `both halves of the ${nameOf(build, part)}`
    : listed(arrangement.members.map((member) => plainly(build, member)));
  if (arrangement.kind === 'series') return isOne ? members : `${members}, one added to the other: louder and fuller`;
  if (arrangement.kind === 'parallel') return isOne ? `${members} side by side: clearer, less loud` : `${members} together`;
  return `${members} together, not all equally loud`;
}

function partsIn(build: Build, arrangement: Arrangement): PartId[] {
  if (arrangement.kind === 'pickup') return [arrangement.part];
  if (arrangement.kind === 'coil') return [elementById(build.circuit, arrangement.coil).part];
  return arrangement.members.flatMap((member) => partsIn(build, member));
}

function hasReversed(arrangement: Arrangement): boolean {
  if (arrangement.kind === 'pickup' || arrangement.kind === 'coil') return arrangement.reversed;
  const turned = arrangement.members.map(hasReversed);
  return turned.some(Boolean);
}

function nameOf(build: Build, part: PartId): string {
  return `${build.part(part).name.replaceAll('-', ' ')} pickup`;
}

const KNOBS: Readonly<Record<ControlRole, string>> = {
  volume: 'loudness: silent at 0, full at 10',
  tone: 'treble: mellow at 0, bright at 10',
  'bass-cut': 'bass: thins the sound as you turn it',
  blend: 'blends from one pickup to the other',
  spread: 'gradually adds the second half of the pickup',
  mixed: 'changes loudness and treble together',
  nothing: '',
  unwired: '',
};

function knobBlocks(build: Build): Block[] {
  const rows = effectsAnywhere(build.circuit)
    .map(({ role, shaft }) => [shaftById(build.circuit, shaft).name.replaceAll('-', ' '), KNOBS[role]])
    .filter(([, text]) => text !== '');
  return rows.length === 0 ? [] : [{ kind: 'table', heads: ['knob', 'what it does'], rows }];
}
