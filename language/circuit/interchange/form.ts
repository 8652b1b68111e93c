/** The JSON form of a circuit, piece by piece: the one source of its schema, its writer and its reader. */
import {
  count,
  dictionary,
  figure,
  list,
  named,
  orNull,
  place,
  recursive,
  struct,
  text,
  truth,
  variant,
  words,
  type Codec,
} from './codec.js';
import { wireMakes } from '../circuit.js';

const unit = words(
  'ohm',
  'farad',
  'henry',
  'metre',
  'awg',
  'volt',
  'hertz',
  'ampere',
  'ampere-hour',
  'siemens',
  'percent',
  'decibel',
  'count',
);
const quantity = struct(
  { value: figure, unit, tolerance: figure, 'assumed?': truth, known: truth, 'rejected?': truth, 'range?': place },
  'SI base units; tolerance is a share of 1, assumed where the text gives none; known is false for a value written `?` and for one that can’t be right, which has rejected as well',
);
const wordy = struct({ words: list(text), 'range?': place });
const property: Codec = {
  schema: { oneOf: [quantity.schema, wordy.schema] },
  write: (value, names) => ('words' in (value as object) ? wordy : quantity).write(value, names),
  read: (json, names, at) =>
    (typeof json === 'object' && json !== null && 'words' in json ? wordy : quantity).read(json, names, at),
};
const make = list(words(...wireMakes));
const lead = struct({
  lug: named('lug'),
  'colour?': text,
  'gauge?': figure,
  'length?': figure,
  shielded: truth,
  'make?': make,
  range: place,
});

const part = struct({
  name: text,
  type: text,
  ancestry: list(text),
  family: words('pickup', 'switch', 'control', 'passive', 'metal', 'amplifier', 'assembly', 'jack', 'cavity', 'plate', 'screen'),
  lugs: list(named('lug')),
  elements: list(named('element')),
  properties: dictionary(property),
  'parent?': named('part'),
  inPlace: truth,
  rows: list(list(orNull(named('lug')))),
  'cavity?': text,
  'plate?': text,
  'at?': struct({ x: figure, y: figure }),
  'leads?': list(lead),
  'untyped?': truth,
  'doc?': text,
  range: place,
  nameRange: place,
  'typeRange?': place,
});
const lug = struct({
  part: named('part'),
  name: text,
  label: text,
  metal: truth,
  takesMany: truth,
  uses: list(place),
  'inner?': truth,
});
const joint = struct({
  kind: words('wire', 'solder', 'touch', 'screen', 'inside'),
  a: named('lug'),
  b: named('lug'),
  statement: count,
  'mark?': text,
  'number?': count,
  'colour?': text,
  'colourRange?': place,
  'gauge?': figure,
  'length?': figure,
  bare: truth,
  twisted: truth,
  shielded: truth,
  'make?': make,
  ownLead: truth,
  'screen?': named('lug'),
  'holder?': named('part'),
  'form?': words('wire', 'solder'),
  range: place,
  aRange: place,
  bRange: place,
  statementRange: place,
});

const ends = { part: named('part'), name: text, a: named('lug'), b: named('lug') };
const turn = words(1, -1);
const shelf = (kind: string): Codec => struct({ kind: words(kind), hz: figure, db: figure, 'shaft?': named('shaft') });
const band = variant('kind', {
  pole: struct({ kind: words('pole'), hz: figure }),
  bass: shelf('bass'),
  mid: shelf('mid'),
  treble: shelf('treble'),
});
const element = variant('kind', {
  coil: struct({
    ...ends,
    kind: words('coil'),
    'piezo?': truth,
    resistance: quantity,
    inductance: quantity,
    capacitance: quantity,
    'loss?': quantity,
    'eddyInductance?': figure,
    'eddyResistance?': quantity,
    'lossExponent?': figure,
    'coverShading?': figure,
    output: figure,
    winding: turn,
    magnet: turn,
    'coupling?': figure,
    'turns?': figure,
  }),
  resistor: struct({ ...ends, kind: words('resistor'), resistance: quantity }),
  capacitor: struct({ ...ends, kind: words('capacitor'), capacitance: quantity }),
  inductor: struct({ ...ends, kind: words('inductor'), inductance: quantity, 'resistance?': quantity, 'coupling?': figure }),
  diode: struct({ ...ends, kind: words('diode'), forward: quantity, 'breakdown?': quantity, 'lights?': truth }),
  battery: struct({ ...ends, kind: words('battery'), voltage: quantity }),
  track: struct({
    ...ends,
    kind: words('track'),
    wiper: named('lug'),
    resistance: quantity,
    taper: words('linear', 'audio', 'reverse-audio', 'measured'),
    mid: figure,
    'points?': list(struct({ travel: figure, share: figure })),
    shaft: named('shaft'),
    empty: figure,
    full: figure,
    'leavesTo?': named('lug'),
    end: figure,
  }),
  gain: struct({
    ...ends,
    kind: words('gain'),
    plus: named('lug'),
    minus: named('lug'),
    'inverting?': named('lug'),
    'transistor?': words('forward', 'backward'),
    gain: figure,
    inputResistance: quantity,
    outputResistance: quantity,
    'current?': quantity,
    'bands?': list(band),
  }),
});
const position = struct({ number: count, key: text, label: text, joins: list(list(named('lug'))), 'range?': place });
const drive = struct({ position: count, a: named('lug'), b: named('lug'), eitherWay: truth });
const device = struct({ part: named('part'), name: text, positions: list(position), 'rest?': count, 'drive?': drive });
const shaft = struct({
  part: named('part'),
  name: text,
  rest: figure,
  turn: words('right', 'left'),
  tracks: list(named('element')),
});

const setting = variant('kind', {
  switch: struct({ kind: words('switch'), switch: named('switch'), position: count, range: place }),
  shaft: struct({ kind: words('shaft'), shaft: named('shaft'), rotation: figure, range: place }),
});
const share = { reversed: truth, 'share?': figure };
const members = recursive('arrangement', () => arrangement);
const several = struct({ ...share, kind: words('series', 'parallel', 'mixed'), members: list(members) });
const arrangement: Codec = variant('kind', {
  pickup: struct({ ...share, kind: words('pickup'), part: named('part') }),
  coil: struct({ ...share, kind: words('coil'), coil: named('element') }),
  series: several,
  parallel: several,
  mixed: several,
});
const bare = (kind: string): Codec => struct({ kind: words(kind), range: place });
const claim = variant('kind', {
  sounds: struct({ kind: words('sounds'), arrangement: members, range: place }),
  silent: bare('silent'),
  hum: struct({ kind: words('hum'), hum: words('cancelled', 'partly', 'present'), range: place }),
  reads: struct({ kind: words('reads'), ohm: figure, 'within?': figure, range: place }),
  'reads-open': bare('reads-open'),
  'reads-short': bare('reads-short'),
  hums: bare('hums'),
  peak: struct({ kind: words('peak'), hz: figure, 'within?': figure, range: place }),
  cutoff: struct({ kind: words('cutoff'), hz: figure, 'within?': figure, range: place }),
  level: struct({ kind: words('level'), db: figure, 'hz?': figure, 'within?': figure, range: place }),
});
const expectation = { 'at?': named('lug'), settings: list(setting), claims: list(claim), range: place, 'doc?': text };

const problem = struct({
  rule: text,
  severity: words('error', 'warning', 'info', 'hint'),
  message: text,
  'why?': text,
  range: place,
  subjects: list(text),
});

/** Everything of a circuit but what an editor needs of its text. */
export const circuitForm = struct({
  'title?': text,
  'titleRange?': place,
  'doc?': text,
  batch: count,
  hand: words('right', 'left'),
  seen: words('front', 'back'),
  parts: list(part),
  lugs: list(lug),
  joints: list(joint),
  elements: list(element),
  switches: list(device),
  shafts: list(shaft),
  expectations: list(struct(expectation)),
  measurements: list(struct({ ...expectation, 'between?': list(named('lug')) })),
  allows: list(struct({ rule: text, ruleRange: place, 'on?': text, why: text, range: place })),
  cavities: list(
    struct({ name: text, shielded: truth, 'depth?': figure, 'part?': named('part'), range: place, nameRange: place }),
  ),
  channels: list(struct({ from: text, to: text, 'length?': figure, 'bore?': figure, range: place })),
  plates: list(
    struct({
      name: text,
      cavity: text,
      metal: truth,
      shielded: truth,
      'part?': named('part'),
      carries: list(named('part')),
      'thick?': figure,
      'size?': struct({ width: figure, height: figure }),
      range: place,
      nameRange: place,
    }),
  ),
  rig: struct({ cable: figure, input: figure, 'inputCapacitance?': figure }),
  'strings?': struct({ scale: figure, tuning: list(struct({ name: text, hz: figure })) }),
  'build?': dictionary(figure),
  'output?': struct({ part: named('part'), tip: named('lug'), sleeve: named('lug') }),
  jacks: list(named('part')),
  'record?': struct({
    number: count,
    'by?': text,
    'date?': text,
    changed: list(text),
    before: list(text),
    done: list(text),
    range: place,
  }),
  problems: list(problem),
  'aside?': list(place),
  isLibrary: truth,
});

export const definitions = { arrangement: arrangement.schema };
