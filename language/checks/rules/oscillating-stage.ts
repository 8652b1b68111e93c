/** An amplifier stage whose output reaches its own input strongly enough to make it oscillate. */
import { figure } from '../../claim.js';
import { partById } from '../../circuit/model.js';
import { loopGain } from '../../electrics/index.js';
import { hertzText } from '../facts/amounts.js';
import { describeSettings, placeOfPart, settingsOf } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

type Claim = Statement & {
  readonly kind: 'oscillates';
  readonly subjects: { readonly stage: string };
  readonly figures: { readonly gain: ReturnType<typeof figure>; readonly frequency: ReturnType<typeof figure> };
};

/** The most settings in which a stage is examined: each takes a sweep. */
const most = 16;

export const oscillatingStage = defineRule<Claim>({
  id: 'oscillating-stage',
  severity: 'error',
  summary: 'an amplifier stage that is fed from its own output and oscillates',
  describe(claim) {
    const { gain, frequency } = claim.figures;
    const where = describeSettings(claim);
    const at = frequency.value < 20 ? '' : ` at ${hertzText(frequency.value)}`;
    return `${claim.subjects.stage} amplifies its own output ${Number(gain.value.toPrecision(3))} times${at}${where && `, ${where}`}: it oscillates`;
  },
  check(facts) {
    const { circuit, joined, unread } = facts;
    if (facts.outputFault() !== undefined) return [];
    return facts.stages().flatMap(({ stage, fed }) => {
      const part = partById(circuit, stage.part);
      if (joined.isUnwired(part.id) || unread.touches(part.id)) return [];
      const found = fed.slice(0, most).flatMap(({ setting, settings }) => {
        const loop = loopGain(circuit, setting, stage);
        return loop !== undefined && loop.gain >= 1 ? [{ loop, settings }] : [];
      });
      const worst = found.reduce<(typeof found)[number] | undefined>(
        (one, other) => (one !== undefined && one.loop.gain >= other.loop.gain ? one : other),
        undefined,
      );
      if (worst === undefined) return [];
      const claim: Claim = {
        kind: 'oscillates',
        subjects: { stage: part.name },
        figures: { gain: figure(worst.loop.gain, 'count', 3), frequency: figure(worst.loop.hz, 'hertz', 3) },
        ...settingsOf(circuit, facts.settings(), worst.settings),
      };
      return [
        {
          claim,
          why: 'What comes out is louder than what went in, again and again: a howl, or silence with a flat battery. Keep the output away from the input, or turn the stage’s gain down.',
          range: placeOfPart(circuit, part.id),
          subjects: [part.name],
        },
      ];
    });
  },
});
