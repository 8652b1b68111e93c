/** Three hundred drawn circuits: not one may bring an error or a warning, with or without what a luthier states of it. */
import { expect, test } from 'vitest';
import { alarmsOf, knownAlarms, type KnownAlarm } from './alarms.js';
import { drawPractice } from './index.js';

const seen = new Set<KnownAlarm>();

test.each(Array.from({ length: 300 }, (_, index) => index + 1))('seed %i', (seed) => {
  const alarms = alarmsOf(drawPractice(seed));
  for (const { known } of alarms) if (known !== undefined) seen.add(known);
  expect(alarms.flatMap(({ says, known }) => (known === undefined ? [says] : []))).toEqual([]);
});

test('each alarm that is known to be false is still given, or else it is taken out of the list', () => {
  expect(knownAlarms.filter((alarm) => !seen.has(alarm))).toEqual([]);
});
