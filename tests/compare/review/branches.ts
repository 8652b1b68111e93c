/** Realistic changes as branches, each with the verdict that a maintainer gives; where it has several counts, their derivation stands beside it. */
import { edit, files, type Edit } from './workshop.js';

export interface Branch {
  readonly name: string;
  readonly edit: Edit;
  /** The first line of the comment, behind its name. */
  readonly verdict: string;
  /** Lines that must be in the text. */
  readonly says: readonly string[];
  /** Gates of `--fail-on` that stop it. */
  readonly stops: readonly string[];
}

const [no41, no42, no43, no44, house] = [41, 42, 43, 44]
  .map((number) => `circuits/no-${number}.lug`)
  .concat('parts/house.lug') as [string, string, string, string, string];
const record = 'circuits/no-41.no-1.lug';

function both(...edits: readonly Edit[]): Edit {
  return (all) => Object.assign({}, ...edits.map((one) => one(all))) as Record<string, string | undefined>;
}

export const branches: readonly Branch[] = [
  {
    name: 'ground-set-aside',
    edit: edit(no41, ['wire saddle to volume.case black 22awg\n', 'allow floating-metal on saddle "the builder says so"\n']),
    verdict: '2 circuits: 2 findings set aside',
    says: [
      'circuits/no-41.lug and circuits/no-41.no-1.lug: new: allow floating-metal on saddle “the builder says so” sets aside: error, saddle is not on ground',
    ],
    stops: ['allow'],
  },
  {
    name: 'syntax-error',
    edit: edit(no42, ['wire neck.hot to selector.B3', 'wire neck.hot selector.B3 to']),
    verdict: '1 circuit: 1 text not fully read',
    says: ['circuits/no-42.lug: the new version has 1 error in its text'],
    stops: ['silent', 'lost', 'weakened', 'allow', 'reading'],
  },
  {
    name: 'conflict-markers',
    edit: edit(no42, [
      'wire neck.hot to selector.B3\n',
      '<<<<<<< HEAD\nwire neck.hot to selector.B3\n=======\nwire neck.hot to selector.A3\n>>>>>>> main\n',
    ]),
    verdict: '1 circuit: 1 text not fully read',
    says: ['circuits/no-42.lug: the new version has'],
    stops: ['silent', 'lost', 'weakened', 'allow', 'reading'],
  },
  {
    name: 'mute-exchanged-in-the-house',
    edit: edit(house, ['at "play" joins A0 A1\n  at "mute" joins A0 A2', 'at "play" joins A0 A2\n  at "mute" joins A0 A1']),
    // In each of two circuits: play is silent (a finding), mute sounds; both claims fail, and both readings change, tip on ground against 7.39k.
    verdict: '2 circuits: 2 positions silent, 4 checks failing, 2 new findings, 2 positions changed, 4 meter readings changed',
    says: ['through parts/house.lug', '1 other circuit in the same way, with figures of their own: circuits/no-45.lug'],
    stops: ['silent', 'reading'],
  },
  {
    name: 'mute-misspelt-in-the-house',
    edit: edit(house, ['at "mute" joins A0 A2', 'at "mute" join A0 A2']),
    verdict: '2 circuits: 2 texts not fully read',
    says: [
      'circuits/no-44.lug and circuits/no-45.lug: the new version has 1 error in its text, so part of it is not compared; line 1: ../parts/house.lug has problems: found `join` where `joins` is expected',
    ],
    stops: ['silent', 'lost', 'weakened', 'allow', 'reading'],
  },
  {
    name: 'smaller-house-pots',
    edit: edit(house, ['500k', '250k']),
    // In each of two circuits: 7.5k beside 250k reads 7.28k in play, 0 on ground as before; the volume loads the coil otherwise when it is turned.
    verdict: '2 circuits: 2 meter readings changed, 2 controls changed',
    says: ['volume: resistance 500 kΩ becomes 250 kΩ'],
    stops: ['reading'],
  },
  {
    name: 'tone-behind-the-volume',
    edit: edit(no43, ['wire volume.3 to tone.2', 'wire volume.2 to tone.2']),
    verdict: '1 circuit: 2 controls changed',
    says: ['volume at 5, tone at 5: -3 dB at 1.95 kHz becomes 12.5 kHz'],
    stops: [],
  },
  {
    name: 'treble-bleed',
    edit: edit(no43, ['part saddle', 'part bleed : capacitor 680pF film from volume.3 to volume.2\npart saddle']),
    // With the volume at 10 the track shorts it; it acts with the volume turned down, and with the tone half way as well.
    verdict: '1 circuit: 2 controls changed',
    says: ['+ new part bleed', 'volume at 2.5'],
    stops: [],
  },
  {
    name: 'tolerance-of-a-check-loosened',
    edit: edit(no41, ['reads 7.39k within 5%', 'reads 7.39k within 25%']),
    verdict: '2 circuits: 2 checks weakened',
    says: [
      'circuits/no-41.lug and circuits/no-41.no-1.lug: loosened: expect : reads 7.39k within 25% (before: reads 7.39k within 5%)',
    ],
    stops: ['weakened'],
  },
  {
    name: 'claim-dropped',
    edit: edit(no42, ['sounds parallel(bridge, neck), hum cancelled', 'sounds parallel(bridge, neck)']),
    verdict: '1 circuit: 1 check weakened',
    says: ['circuits/no-42.lug: gone: expect selector "both" : hum cancelled (it was met)'],
    stops: ['weakened'],
  },
  {
    name: 'check-gone-that-would-fail',
    edit: edit(
      no42,
      ['wire neck.hot to selector.B3', 'wire neck.hot to selector.B1'],
      ['expect selector "both" : sounds parallel(bridge, neck), hum cancelled\n', ''],
    ),
    // The neck on B1 sounds with the bridge in position 1, not in 2, and in 3 nothing does: three readings, two positions changed, one silent.
    // Two claims are gone; new are the silent position and the jumper B3 to B2 without a lead.
    verdict: '1 circuit: 1 position silent, 2 checks weakened, 2 new findings, 2 positions changed, 3 meter readings changed',
    says: ['would fail now: only bridge is heard'],
    stops: ['silent', 'weakened', 'reading'],
  },
  {
    name: 'circuit-added',
    edit: (all) => ({ 'circuits/no-46.lug': all[no42]!.replaceAll('no. 42', 'no. 46') }),
    verdict: '1 file added',
    says: ['added: circuits/no-46.lug, “Alder Lane no. 46”'],
    stops: [],
  },
  {
    name: 'everything-deleted',
    edit: () =>
      Object.fromEntries(
        Object.keys(files)
          .filter((path) => path !== no42)
          .map((path) => [path, undefined]),
      ),
    verdict: '6 files deleted',
    says: ['deleted: circuits/no-43.lug, “Alder Lane no. 43”'],
    stops: [],
  },
  {
    name: 'circuit-renamed',
    edit: (all) => ({ [no43]: undefined, 'circuits/tone-first.lug': all[no43] }),
    verdict: '1 file renamed',
    says: ['renamed: circuits/no-43.lug is now circuits/tone-first.lug, “Alder Lane no. 43”'],
    stops: [],
  },
  {
    name: 'house-renamed-but-not-its-uses',
    edit: (all) => ({ [house]: undefined, 'parts/alder.lug': all[house] }),
    verdict: '2 circuits: 2 texts not fully read; 1 file renamed',
    says: ['renamed: parts/house.lug is now parts/alder.lug'],
    stops: ['silent', 'lost', 'weakened', 'allow', 'reading'],
  },
  {
    name: 'reading-taken-again',
    edit: edit(record, ['measured : reads 7.29k', 'measured : reads 7.9k']),
    verdict: '1 circuit: 1 change in a record',
    says: ['~ measured : reads 7.9k (before: reads 7.29k)'],
    stops: [],
  },
  {
    name: 'record-written-on',
    edit: edit(record, ['  changed "A new jack."', '  changed "A new jack."\n  changed "A new volume."']),
    verdict: '1 circuit: 1 change in a record',
    says: ['+ record, changed: new “A new volume.”'],
    stops: [],
  },
  {
    name: 'wider-tolerance',
    edit: edit(no42, [
      'part neck : single-coil 7.5k 3H 100pF { output 80% }',
      'part neck : single-coil 7.5k 3H 100pF { output 80%, tolerance 10% }',
    ]),
    verdict: '1 circuit: 2 positions with other figures',
    says: ['selector "neck": may read 6.43k to 8.39k, before 6.78k to 8.02k'],
    stops: [],
  },
  {
    name: 'lead-on-a-dead-lug',
    edit: edit(no42, ['wire neck.hot to selector.B3', 'wire neck.hot to selector.B1']),
    // As above, but both claims of position 2 are there and fail.
    verdict: '1 circuit: 1 position silent, 2 checks failing, 2 new findings, 2 positions changed, 3 meter readings changed',
    says: ['> wire neck.hot to selector.B3: the end at selector.B3 moves to selector.B1'],
    stops: ['silent', 'reading'],
  },
  {
    name: 'ground-of-the-neck-forgotten',
    edit: edit(no42, ['wire neck.ground to volume.case\n', '']),
    // Position 2 has the bridge alone and position 3 nothing; both claims of position 2 fail; new is the loose lead.
    verdict:
      '1 circuit: 1 position silent, 1 pickup lost, 2 checks failing, 1 new finding, 1 position changed, 2 meter readings changed',
    says: ['neck is not heard in any position now'],
    stops: ['silent', 'lost', 'reading'],
  },
  {
    name: 'neck-turned-in-phase',
    edit: edit(
      no42,
      ['wire neck.hot to selector.B3', 'wire neck.ground to selector.B3'],
      ['wire neck.ground to volume.case', 'wire neck.hot to volume.case'],
    ),
    // Alone neither coil has a phase; in position 2 both claims fail, and the phase is a finding.
    verdict: '1 circuit: 2 checks failing, 1 new finding, 1 position changed',
    says: ['sounds parallel(bridge, neck) becomes parallel(bridge, reversed neck)'],
    stops: [],
  },
  {
    name: 'part-renamed',
    edit: (all) => ({ [no43]: all[no43]!.replaceAll('saddle', 'bridge-metal') }),
    verdict: '1 circuit: no electrical change',
    says: ['~ saddle is now called bridge-metal'],
    stops: [],
  },
  {
    name: 'statements-in-another-order',
    edit: (all) => ({
      [no43]: `${all[no43]!.split(/\n(?=[a-z]+ )/)
        .reverse()
        .join('\n')}\n`,
    }),
    verdict: '1 circuit: no electrical change',
    says: [],
    stops: [],
  },
  {
    name: 'another-colour',
    edit: edit(no42, ['output.tip white 22awg', 'output.tip yellow 22awg']),
    verdict: '1 circuit: no electrical change, but the build changes',
    says: ['~ wire volume.2 to output.tip: colour white becomes yellow'],
    stops: [],
  },
  {
    name: 'allow-that-hides-more',
    edit: both(
      edit(
        no44,
        ['wire saddle to volume.case black 22awg\n', 'allow floating-metal "a bridge of wood"\n'],
        ['wire mute.frame to volume.case\n', ''],
      ),
    ),
    verdict: '1 circuit: 2 findings set aside',
    says: ['sets aside: error, mute.frame is not on ground'],
    stops: ['allow'],
  },
];
