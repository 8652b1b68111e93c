/** Whole pieces of a circuit with places to fill in, offered where a statement may begin: what takes more than the one line of a statement, or is more than its bare form. */
import { CompletionItemKind } from 'vscode-languageserver';
import type { CompletionContext, Offer } from './item.js';

/** A piece that is found by one word. */
export interface Template {
  readonly word: string;
  readonly says: string;
  /** With places to fill in as the Language Server Protocol has them. */
  readonly text: string;
}

/** For a file in which nothing stands yet. */
export const wholeCircuit: Template = {
  word: 'circuit',
  says: 'a whole circuit with one pickup and one volume control',
  text: lines(
    '/** ${1:What it is.} */',
    'instrument "${2:Title}"',
    '',
    'part ${3:pickup} : single-coil 6.5k 2.6H 110pF',
    'part volume : pot 250k audio',
    'part saddle : bridge-ground',
    'part output : jack',
    '',
    'wire $3.hot to volume.3',
    'wire volume.2 to output.tip white',
    'solder volume.1 to volume.case',
    'wire $3.ground to volume.case',
    'wire saddle to volume.case black',
    'wire volume.case to output.sleeve black',
    '',
    'expect : sounds $3',
    'expect volume 0 : silent',
    '$0',
  ),
};

/** Values are those of the trade (common practice). */
export const templates: readonly Template[] = [
  {
    word: 'single-coil',
    says: 'a pickup with one coil',
    text: lines('part ${1:neck} : single-coil ${2:6.2k} ${3:2.4H} ${4:110pF}$0'),
  },
  {
    word: 'humbucker',
    says: 'a pickup with two coils in series and two leads',
    text: lines('part ${1:bridge} : humbucker ${2:8.2k} ${3:4.4H} ${4:90pF}$0'),
  },
  {
    word: 'humbucker-4',
    says: 'a pickup with two coils and four leads, in series',
    text: lines('part ${1:bridge} : humbucker-4 ${2:8.2k} ${3:4.4H} ${4:90pF}', 'solder $1.north-finish to $1.south-finish$0'),
  },
  {
    word: 'volume',
    says: 'a pot as a volume control: in on 3, out on 2, 1 on its case',
    text: lines(
      'part ${1:volume} : pot ${2:250k} ${3|audio,linear,reverse-audio|}',
      'wire ${4:selector.A0} to $1.3',
      'wire $1.2 to ${5:output.tip}',
      'solder $1.1 to $1.case$0',
    ),
  },
  {
    word: 'tone',
    says: 'a pot and a capacitor as a tone control',
    text: lines(
      'part ${1:tone} : pot ${2:250k} ${3|audio,linear,reverse-audio|}',
      'part $1-cap : capacitor ${4:22nF} from $1.1 to $1.case',
      'wire ${5:volume.3} to $1.2$0',
    ),
  },
  {
    word: 'lever-3',
    says: 'a lever switch for two pickups',
    text: lines('part ${1:selector} : lever-3 { positions "${2:bridge}" "${3:both}" "${4:neck}" }$0'),
  },
  {
    word: 'lever-5',
    says: 'a lever switch for three pickups',
    text: lines(
      'part ${1:selector} : lever-5 { positions "${2:bridge}" "${3:bridge and middle}" "${4:middle}" "${5:middle and neck}" "${6:neck}" }$0',
    ),
  },
  {
    word: 'capacitor',
    says: 'a capacitor between two lugs',
    text: lines('part ${1:cap} : capacitor ${2:22nF} from ${3:tone.1} to ${4:tone.case}$0'),
  },
  {
    word: 'bleed',
    says: 'a capacitor and a resistor across a volume control',
    text: lines(
      'part ${1:bleed-cap} : capacitor ${2:680pF} across ${3:volume}.3 and $3.2',
      'part ${4:bleed-res} : resistor ${5:150k} across $3.3 and $3.2$0',
    ),
  },
  {
    word: 'jack',
    says: 'the output jack and the wire to the strings',
    text: lines(
      'part ${1:output} : jack',
      'part ${2:saddle} : bridge-ground',
      'wire $2 to ${3:volume.case} black',
      'wire $3 to $1.sleeve black$0',
    ),
  },
  {
    word: 'shielded',
    says: 'a shielded wire and where its screen is connected',
    text: lines('wire ${1:volume.2} to ${2:output.tip} shielded screen to ${3:output.sleeve}$0'),
  },
  { word: 'silent', says: 'a control that is silent at 0', text: lines('expect ${1:volume} 0 : silent$0') },
  {
    word: 'own-switch',
    says: 'your own type of switch',
    text: lines(
      'type ${1:kill-slide} : switch {',
      '\tlugs A0 A1 A2 frame',
      '\trows A1 A0 A2',
      '\tpositions "${2:play}" "${3:mute}"',
      '\tat "$2" joins A0 A1',
      '\tat "$3" joins A0 A2',
      '\tmetal frame',
      '}$0',
    ),
  },
  {
    word: 'own-pickup',
    says: 'your own type of pickup',
    text: lines(
      'type ${1:dark-coil} : pickup {',
      '\tlugs hot ground',
      '\ttakes resistance ${2:8.1k}, inductance ${3:4.6H}, wound forward|reverse, magnet north|south',
      '\tcoil main from ground to hot { resistance resistance, inductance inductance, capacitance ${4:90pF} }',
      '}$0',
    ),
  },
  {
    word: 'own-assembly',
    says: 'a group of parts that is used more than once',
    text: lines(
      'type ${1:bleed} : assembly {',
      '\tlugs top bottom',
      '\tpart c : capacitor ${2:680pF} from top to bottom',
      '\tpart r : resistor ${3:150k} from top to bottom',
      '}$0',
    ),
  },
];

function lines(...all: readonly string[]): string {
  return all.join('\n');
}

/** Those that fit: a whole circuit in a file without statements, the others in any file, none in the body of a type. */
export function templateOffers({ scope, at, range }: CompletionContext): Offer[] {
  if (scope === 'type') return [];
  const isEmpty = at.tree.statements.every(({ line }) => line === range.start.line);
  return [...(isEmpty ? [wholeCircuit] : []), ...templates].map(({ word, says, text }) => ({
    label: word,
    kind: CompletionItemKind.Snippet,
    text,
    isSnippet: true,
    detail: says,
    rank: word === wholeCircuit.word ? 4 : 6,
  }));
}
