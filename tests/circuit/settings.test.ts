/** What expectations and measurements set and claim, and what is set aside. */
import { describe, expect, test } from 'vitest';
import { coilOf, lugOf, partOf, soundCircuit } from './harness.js';

const PARTS = `
part neck : humbucker
part bridge : single-coil
part selector : toggle-3 { positions "neck" "both" "bridge" }
part tone : pot-push-pull 250k
part volume : pot 250k
part out : jack-stereo
`;

function settingsOf(statement: string): unknown {
  return soundCircuit(`${PARTS}\n${statement}`).expectations[0]!.settings.map(({ range, ...setting }) => {
    expect(range.start.line).toBe(8);
    return setting;
  });
}

describe('settings', () => {
  test.each([
    ['expect selector 2 : silent', [{ kind: 'switch', switch: 0, position: 1 }]],
    ['expect selector "both" : silent', [{ kind: 'switch', switch: 0, position: 1 }]],
    ['expect selector middle : silent', [{ kind: 'switch', switch: 0, position: 1 }]],
    ['expect selector neck : silent', [{ kind: 'switch', switch: 0, position: 0 }]],
    ['expect selector "down" : silent', [{ kind: 'switch', switch: 0, position: 2 }]],
    // On a part that is pot and switch in one a number is the rotation, and the switch goes by name.
    ['expect tone 3 : silent', [{ kind: 'shaft', shaft: 0, rotation: 3 }]],
    ['expect tone up : silent', [{ kind: 'switch', switch: 1, position: 1 }]],
    [
      'expect tone 0, tone down : silent',
      [
        { kind: 'shaft', shaft: 0, rotation: 0 },
        { kind: 'switch', switch: 1, position: 0 },
      ],
    ],
    ['expect volume 7.5 : silent', [{ kind: 'shaft', shaft: 1, rotation: 7.5 }]],
    ['expect out empty : silent', [{ kind: 'switch', switch: 2, position: 0 }]],
    ['expect : silent', []],
  ])('%s', (statement, settings) => expect(settingsOf(statement)).toEqual(settings));
});

function claimsOf(claims: string): unknown {
  const circuit = soundCircuit(`${PARTS}\nexpect : ${claims}`);
  return circuit.expectations[0]!.claims.map(({ range, ...claim }) => {
    expect(range.start.line).toBe(8);
    return claim;
  });
}

describe('claims', () => {
  test.each([
    ['silent', [{ kind: 'silent' }]],
    [
      'hum cancelled, hum present',
      [
        { kind: 'hum', hum: 'cancelled' },
        { kind: 'hum', hum: 'present' },
      ],
    ],
    ['reads 6.05k within 15%', [{ kind: 'reads', ohm: 6050, within: 0.15 }]],
    ['reads 6k05', [{ kind: 'reads', ohm: 6050 }]],
    ['reads open', [{ kind: 'reads-open' }]],
    ['peak 3.2kHz within 5%', [{ kind: 'peak', hz: 3200, within: 0.05 }]],
    ['cutoff 880Hz', [{ kind: 'cutoff', hz: 880 }]],
    ['cutoff 1.2kHz within 10%', [{ kind: 'cutoff', hz: 1200, within: 0.1 }]],
    ['level -6.5dB', [{ kind: 'level', db: -6.5 }]],
    // The minus of a printed table, as `positions` shows it in a browser.
    ['level −6.5dB within 0.5dB', [{ kind: 'level', db: -6.5, within: 0.5 }]],
    ['level 2dB at 3.2kHz within 1dB', [{ kind: 'level', db: 2, hz: 3200, within: 1 }]],
    ['level\n  0dB\n  at 1kHz', [{ kind: 'level', db: 0, hz: 1000 }]],
  ])('%s', (text, claims) => expect(claimsOf(text)).toEqual(claims));

  test('arrangements are pickups and coils, nested, reversed, with shares', () => {
    const circuit = soundCircuit(
      `${PARTS}\nexpect : sounds parallel(series(neck.north, reversed neck.slug 30%), reversed bridge)`,
    );
    const north = coilOf(circuit, 'neck', 'north').id;
    const south = coilOf(circuit, 'neck', 'south').id;
    expect(circuit.expectations[0]!.claims[0]).toMatchObject({
      kind: 'sounds',
      arrangement: {
        kind: 'parallel',
        reversed: false,
        members: [
          {
            kind: 'series',
            reversed: false,
            members: [
              { kind: 'coil', coil: north, reversed: false },
              { kind: 'coil', coil: south, reversed: true, share: 0.3 },
            ],
          },
          { kind: 'pickup', part: partOf(circuit, 'bridge').id, reversed: true },
        ],
      },
    });
  });
});

test('measurements are at the jack or between two lugs, and know two claims more', () => {
  const circuit = soundCircuit(`${PARTS}
measured selector "neck" : reads 7.9k
measured : reads short, hums
measured between volume.1 and volume.3 volume 5 : reads 240k
`);
  expect(circuit.measurements.map((measured) => [measured.between, measured.claims.map((claim) => claim.kind)])).toEqual([
    [undefined, ['reads']],
    [undefined, ['reads-short', 'hums']],
    [[lugOf(circuit, 'volume.1').id, lugOf(circuit, 'volume.3').id], ['reads']],
  ]);
});

test('what is set aside names a part, a lug by its label, or the whole', () => {
  const circuit = soundCircuit(`${PARTS}
allow silent-position "the builder wants it"
allow ungrounded-metal on tone "no metal near it"
allow left-unconnected on tone.middle "traced"
allow ungrounded-metal on neck.cover "plastic"
`);
  expect(circuit.allows.map(({ rule, on, why }) => [rule, on, why])).toEqual([
    ['silent-position', undefined, 'the builder wants it'],
    ['ungrounded-metal', 'tone', 'no metal near it'],
    ['left-unconnected', 'tone.2', 'traced'],
    ['ungrounded-metal', 'neck.cover', 'plastic'],
  ]);
  expect(circuit.lugs.some((lug) => lug.label === 'neck.cover')).toBe(false);
});

test('the instrument has its title and how many are built', () => {
  const circuit = soundCircuit('instrument "Alder Lane no. 3" { batch 4, hand left, seen back }');
  expect(circuit).toMatchObject({ title: 'Alder Lane no. 3', batch: 4, hand: 'left', seen: 'back', isLibrary: true });
  expect(soundCircuit('part p : pot')).toMatchObject({ batch: 1, hand: 'right', seen: 'front', isLibrary: false });
});
