/** Numbers that can be read but can't be those of a pickup: another unit, another column, nothing connected. */
import type { Measured, MeasuredImpedance, MeasuredResponse } from './measured.js';

export interface Implausible {
  /** The number of the row, from 0; absent where a whole column is wrong. */
  readonly at?: number;
  readonly message: string;
}

/** Nobody measures a pickup only below the lowest note. */
const lowestNoteHz = 25;
/** From the flat part to the peak it is more. */
const leastSpan = 4;

/** The first thing that no pickup shows. */
export function implausible(measured: Measured): Implausible | undefined {
  const [from, to] = [measured.hz[0] ?? 1, measured.hz.at(-1) ?? 1];
  if (to < lowestNoteHz)
    return { message: `all frequencies are below ${lowestNoteHz} Hz: are they kilohertz? Then name the column khz` };
  if (to < leastSpan * from) return { message: 'the frequencies span less than two octaves: measure from 100 Hz to 15 kHz' };
  return measured.kind === 'response' ? implausibleLevel(measured) : implausibleImpedance(measured);
}

/** More than any interface can tell apart. */
const mostDecibels = 200;
/** A response that moves less than this over the whole range is that of nothing, dB. */
const flatDecibels = 0.5;

function implausibleLevel({ db }: MeasuredResponse): Implausible | undefined {
  const at = db.findIndex((value) => Math.abs(value) > mostDecibels);
  if (at >= 0) return { at, message: `${db[at] ?? 0} dB is no level; are the columns exchanged or shifted?` };
  if (Math.max(...db) - Math.min(...db) >= flatDecibels) return undefined;
  return {
    message:
      'the level is the same everywhere: nothing of a pickup was measured. Is the pickup connected, and not the loop of the interface itself?',
  };
}

/** A passive part keeps within 90°; noise takes it a little beyond. */
const mostDegrees = 100;
/** The same in radians, a quarter turn: a pickup in degrees goes far beyond it. */
const mostRadians = Math.PI / 2 + 0.1;
/** Less than any winding; what a usual one has in kilohms is below it. */
const leastOhms = 50;
/** A pickup's impedance rises to many times its resistance. */
const flatRatio = 1.1;

function implausibleImpedance({ ohm, deg }: MeasuredImpedance): Implausible | undefined {
  const least = Math.min(...ohm);
  if (Math.max(...ohm) < flatRatio * least)
    return { message: 'the impedance is the same everywhere, as that of a resistor. Is the pickup connected?' };
  if (least < leastOhms)
    return { message: `${least} Ω is less than any pickup has: are they kilohms? Then name the column kohm` };
  if (Math.max(...deg.map(Math.abs)) <= mostRadians)
    return { message: 'no angle is over 1.6: are they radians? Then name the column rad' };
  const at = deg.findIndex((value) => Math.abs(value) > mostDegrees);
  if (at < 0) return undefined;
  return {
    at,
    message: `an angle of ${deg[at] ?? 0}° is no pickup’s, which keeps within 90°; are the columns exchanged or shifted?`,
  };
}
