/** The battery on the page for the player: how long it lasts, and what switches it off. */
import { amount } from '../../circuit/index.js';
import type { Battery, Circuit, Gain } from '../../circuit/model.js';
import { enumerate, isAlive, netOf, nets, operatingPoint, unpluggedSettings, type Nets } from '../../electrics/index.js';
import type { Build } from '../build.js';

/** `off`: unplugging switches it off; `on`: it goes on feeding the stages; `partly`: it depends on the switches; `unknown`: nothing in the text draws current. */
export type Unplugged = 'off' | 'on' | 'partly' | 'unknown';

export interface BatteryFacts {
  readonly battery: Battery;
  readonly unplugged: Unplugged;
  /** Capacity over the current of the stages that it feeds and the most that lamps, relays and dividers take, in hours: 0.5 Ah / 1 mA is 500. Absent where the text gives no capacity or the current is not known. */
  readonly hours?: number;
  /** True where a stage's current is the usual one and not in the text. */
  readonly isEstimated: boolean;
}

/** A current of less than this is left out, ampere: a battery of 0.5 Ah gives it for fifty years. */
const leastDrawn = 1e-6;

/** One for each battery, in the order of the text. */
export function batteries(build: Build): readonly BatteryFacts[] {
  const { circuit } = build;
  const { settings, group } = enumerate(circuit);
  const distinct = settings.filter((_, index) => group.indexOf(group[index] ?? -1) === index);
  const plugged = distinct.map(({ positions }) => nets(circuit, positions));
  const empty = distinct.map((setting) => unpluggedSettings(circuit, setting).map(({ positions }) => nets(circuit, positions)));
  return circuit.elements.flatMap((battery): readonly BatteryFacts[] => {
    if (battery.kind !== 'battery') return [];
    const without: Circuit = { ...circuit, elements: circuit.elements.filter(({ id }) => id !== battery.id) };
    const feeds = (folded: Nets, stage: Gain): boolean => isAlive(circuit, folded, stage) && !isAlive(without, folded, stage);
    const stages = circuit.elements.filter(
      (element): element is Gain => element.kind === 'gain' && plugged.some((folded) => feeds(folded, element)),
    );
    const fed = empty.map((all) => all.some((folded) => stages.some((stage) => feeds(folded, stage))));
    const unplugged =
      stages.length === 0
        ? isCutOff(battery, plugged, empty.flat())
          ? 'off'
          : 'unknown'
        : fed.every(Boolean)
          ? 'on'
          : fed.some(Boolean)
            ? 'partly'
            : 'off';
    const beside = Math.max(0, ...plugged.map((folded) => operatingPoint(circuit, folded).drawnBesideStages(battery)));
    return [{ battery, unplugged, ...lifeOf(build, battery, stages, beside) }];
  });
}

/** Where no stage shows it: a plug joins one of its poles to the sleeve, and without a plug neither is there. */
function isCutOff({ a, b }: Battery, plugged: readonly Nets[], empty: readonly Nets[]): boolean {
  const isReturned = (folded: Nets): boolean => [a, b].some((lug) => netOf(folded, lug) === folded.ground);
  return plugged.every(isReturned) && !empty.some(isReturned);
}

/** `beside`: amperes that lamps, relays and dividers take, at most. */
function lifeOf(
  build: Build,
  { part }: Battery,
  stages: readonly Gain[],
  beside: number,
): Pick<BatteryFacts, 'hours' | 'isEstimated'> {
  const { capacity } = build.part(part).properties;
  const currents = stages.flatMap(({ current }) => (current?.known === true && current.value > 0 ? [current] : []));
  const isEstimated = currents.some(({ range }) => range === undefined);
  if (capacity === undefined || !('value' in capacity) || !capacity.known || capacity.range === undefined) return { isEstimated };
  // The leaks of the model are no current.
  const drawn = currents.reduce((sum, { value }) => sum + value, beside > leastDrawn ? beside : 0);
  if (drawn === 0 || currents.length < stages.length) return { isEstimated };
  return { hours: capacity.value / drawn, isEstimated };
}

/** What the page says of each battery. */
export function batterySentences(build: Build): readonly string[] {
  const facts = batteries(build);
  if (facts.length === 0) return [];
  return [
    ...facts.flatMap((one) => sentencesOf(build, one, facts.length > 1)),
    'It is common practice to change a battery at least once a year, and as soon as the sound gets weak or distorted. Take it out before you store the instrument for months: an old battery leaks.',
  ];
}

function sentencesOf(build: Build, { battery, unplugged, hours, isEstimated }: BatteryFacts, isNamed: boolean): string[] {
  const { voltage, part } = battery;
  const name = isNamed ? ` “${build.part(part).name}”` : '';
  const volts = voltage.known ? ` (${amount(voltage.value, 'volt')})` : '';
  const life =
    hours === undefined
      ? []
      : [
          `The battery${name} lasts ${hours < 1 ? 'less than an hour' : `about ${rounded(hours)} hours`} ${WHILE[unplugged]}${isEstimated ? ', if the electronics take what is usual for them' : ''}: change it before that.`,
        ];
  return [`The battery${name}${volts}: ${UNPLUGGED[unplugged]}`, ...life];
}

/** When the battery runs down. */
const WHILE: Readonly<Record<Unplugged, string>> = {
  off: 'with the lead plugged in',
  on: 'in all, played or not',
  partly: 'while it is on',
  unknown: 'while it is on',
};

const UNPLUGGED: Readonly<Record<Unplugged, string>> = {
  off: 'pull the lead out when you stop playing, since that switches it off.',
  on: 'it stays on when you pull the lead out, and runs down. Ask the workshop for a jack that switches it.',
  partly: 'pulling the lead out does not switch it off in every position of the switches.',
  unknown: 'the plan does not show what switches it off. Ask the workshop.',
};

/** To two digits, downwards. */
function rounded(hours: number): string {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(hours)) - 1);
  // A quotient that is a whole number may come out a hair below it.
  return String(Math.floor(hours / step + 1e-9) * step);
}
