/** A page for the player, without circuit words: what is on the instrument, what each position gives, whether it hums, the battery, what was changed. */
import { elementById, type Arrangement, type PartId } from '../../circuit/model.js';
import { positionTable, type PositionRow } from '../../electrics/index.js';
import type { Build } from '../build.js';
import { mergedRows } from '../sheet/merge-rows.js';
import { titleOf } from '../wording.js';
import type { Block, Section, Sheet } from '../sheet/sheet-model.js';
import { capitalised, listed } from '../../words.js';
import { batterySentences } from './battery.js';
import { controlsOf, handling, isLifted, isMomentary, plainName, type Control, type State } from './controls.js';
import { controlBlocks } from './control-rows.js';
import { statePicture } from './pictures.js';
import { choosesSound, toneChanges, type ToneChange } from './tone.js';

/** The page as a sheet, for the same renderers. */
export function playerPage(build: Build): Sheet {
  const { record } = build;
  const changed: Block[] = record === undefined || record.changed.length === 0 ? [] : [{ kind: 'list', items: record.changed }];
  const controls = controlsOf(build);
  const { rows } = positionTable(build.circuit);
  const battery = batterySentences(build);
  const sections: Section[] = [
    { title: 'What was changed', blocks: changed },
    { title: 'What is on the instrument', blocks: controlBlocks(build, controls, rows) },
    { title: 'What each position gives', blocks: positionBlocks(build, controls, rows) },
    { title: 'What changes the tone', blocks: toneBlocks(build, controls, rows) },
    { title: 'The battery', blocks: battery.length === 0 ? [] : [{ kind: 'list', items: battery }] },
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
    isLarge: true,
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

function positionBlocks(build: Build, controls: readonly Control[], rows: readonly PositionRow[]): Block[] {
  const answer = (row: PositionRow): string => JSON.stringify([row.sound.silent, row.sound.text, row.sound.hum]);
  const merged = mergedRows(build.circuit, rows, answer);
  if (merged.length === 0) return [];
  const free = controls.filter((control) => control.device !== undefined && !isMomentary(control));
  const outputs = new Set(rows.map(({ output }) => output));
  const states = merged.map(({ row, fixed }) =>
    free.flatMap((control): State[] =>
      control.device !== undefined && fixed.includes(control.device.id)
        ? [{ control, position: row.setting.positions[control.device.id] ?? 0 }]
        : [],
    ),
  );
  const positions = merged.map(({ row }, index) => {
    const here = states[index] ?? [];
    const left = free.length - here.length;
    const others = left === 0 ? '' : `; the other ${left > 1 ? 'switches' : 'switch'} in any position`;
    const how = here.length === 0 ? 'in every setting' : `${handling(here, free)}${others}`;
    return [
      outputs.size > 1 ? `${outputName(row.output)}: ${how.charAt(0).toLowerCase()}${how.slice(1)}` : how,
      row.sound.silent || row.sound.arrangement === undefined ? silence(row) : capitalised(heard(build, row.sound.arrangement)),
      row.sound.silent ? '' : (HUM[row.sound.hum] ?? ''),
    ];
  });
  const isDrawn = states.some((here) => here.length > 0);
  const hasEnds = states.flat().some(({ control: { kind } }) => !isLifted(kind));
  return [
    ...(hasEnds
      ? [
          {
            kind: 'text' as const,
            text: 'A picture shows which of its positions a switch is in. Which end comes first depends on how the switch is mounted: try it once, and turn the page round if it is the other way.',
          },
        ]
      : []),
    {
      kind: 'table',
      heads: ['set it so', 'you hear', 'hum'],
      rows: positions,
      ...(isDrawn ? { pictures: states.map(statePicture) } : {}),
    },
  ];
}

/** A row for each position of a switch that changes the tone and not what sounds. */
function toneBlocks({ circuit }: Build, controls: readonly Control[], rows: readonly PositionRow[]): Block[] {
  const made = controls.flatMap((control) => {
    const { device } = control;
    if (device === undefined || isMomentary(control) || choosesSound(rows, device)) return [];
    const changes = toneChanges(circuit, rows, device) ?? [];
    if (changes.every((one) => one.length === 0)) return [];
    return changes.map((one, position) => ({
      states: [{ control, position }],
      says: position === 0 ? 'the first position, with which the others are compared' : changeWords(one),
    }));
  });
  if (made.length === 0) return [];
  return [
    {
      kind: 'table',
      heads: ['set it so', 'you hear'],
      rows: made.map(({ states, says }) => [handling(states, controls), says]),
      pictures: made.map(({ states }) => statePicture(states)),
    },
  ];
}

function changeWords(changes: readonly ToneChange[]): string {
  const words = changes.map(({ what, isMore }) =>
    what === 'loudness' ? (isMore ? 'louder' : 'less loud') : `${isMore ? 'more' : 'less'} ${what}`,
  );
  return words.length === 0
    ? 'no difference'
    : listed(words, new Set(changes.map(({ what }) => what)).size < words.length ? 'or' : 'and');
}

/** `jack output`; the ring of a plug is the second channel of a lead with two. */
function outputName(output: string): string {
  const [part = '', contact = ''] = output.split(/\.(?=[^.]*$)/);
  return `Jack “${plainName(part)}”${contact === 'ring' ? ', second channel' : ''}`;
}

function silence({ sound }: PositionRow): string {
  return sound.silent ? 'Nothing: the instrument is muted' : 'Several pickups, not all equally loud';
}

const HUM: Readonly<Record<string, string>> = {
  cancelled: 'quiet',
  partly: 'hums a little near lamps and transformers',
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
  return `${plainName(build.part(part).name)} pickup`;
}
