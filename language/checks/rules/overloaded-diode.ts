/** A diode or an LED through which a battery drives more current than it bears. */
import { figure, type Figure } from '../../claim.js';
import { amount } from '../../circuit/index.js';
import { type Battery, type Diode, partById } from '../../circuit/model.js';
import { operatingPoint } from '../../electrics/index.js';
import type { Statement } from '../../source.js';
import { describeSettings, placeOfPart, settingsOf } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';

interface Claim extends Statement {
  readonly kind: 'led' | 'diode';
  readonly subjects: { readonly diode: string };
  readonly figures: { readonly current: Figure };
}

/** What a usual LED bears, and from where on a finding is sure, ampere (common practice: 20 mA at most). */
const usualLed = 20e-3;
const mostLed = 30e-3;
/** A small battery gives this only where next to nothing is in its way, ampere. */
const mostDiode = 100e-3;
/** Plenty of light behind a cover plate, ampere. */
const brightEnough = 2e-3;

export const overloadedDiode = defineRule<Claim>({
  id: 'overloaded-diode',
  severity: 'error',
  summary: 'an LED without a resistor, or a diode that is a short across the battery',
  describe({ kind, subjects: { diode }, figures, ...claim }) {
    const where = describeSettings(claim);
    const carries = `${diode} carries about ${amount(figures.current.value, 'ampere', 2)}${where && ` ${where}`}`;
    return kind === 'led'
      ? `${carries}: a usual LED bears ${amount(usualLed, 'ampere')}`
      : `${carries}: it is a short across the battery`;
  },
  check(facts): readonly Report<Claim>[] {
    const { circuit, unread } = facts;
    const diodes = circuit.elements.filter((element): element is Diode => element.kind === 'diode');
    const cells = circuit.elements.filter((element): element is Battery => element.kind === 'battery');
    if (diodes.length === 0 || cells.length === 0 || unread.any) return [];
    const points = facts.groups().map(({ folded, settings }) => ({ point: operatingPoint(circuit, folded), settings }));
    return diodes.flatMap((diode): readonly Report<Claim>[] => {
      const limit = diode.lights === true ? mostLed : mostDiode;
      const over = points.filter(({ point }) => Math.abs(point.current(diode.id)) > limit);
      if (over.length === 0) return [];
      const most = Math.max(...over.map(({ point }) => Math.abs(point.current(diode.id))));
      const { name } = partById(circuit, diode.part);
      const volts = Math.max(...cells.map(({ voltage }) => voltage.value));
      const ohms = Number(((volts - diode.forward.value) / brightEnough).toPrecision(2));
      return [
        {
          claim: {
            kind: diode.lights === true ? 'led' : 'diode',
            subjects: { diode: name },
            figures: { current: figure(most, 'ampere', 2) },
            ...settingsOf(
              circuit,
              facts.settings(),
              over.flatMap(({ settings }) => settings),
            ),
          },
          why:
            diode.lights === true
              ? `An LED holds its voltage, so that only a resistor in series sets the current: about ${ohms / 1e3} kΩ on ${volts} V for a modern one, whose 2 mA are bright enough.`
              : 'A diode that protects a supply lies in series with it, anode towards the plus of the battery; or across it the other way round, cathode on plus.',
          range: placeOfPart(circuit, diode.part),
          subjects: [name],
        },
      ];
    });
  },
});
