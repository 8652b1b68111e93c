/** What was measured on a pickup: a response or an impedance, or why a table is neither. */

/** Levels in dB, of no certain zero, at rising frequencies in hertz. */
export interface MeasuredResponse {
  readonly kind: 'response';
  readonly hz: readonly number[];
  readonly db: readonly number[];
}

/** Ohms and degrees at rising frequencies in hertz. */
export interface MeasuredImpedance {
  readonly kind: 'impedance';
  readonly hz: readonly number[];
  readonly ohm: readonly number[];
  readonly deg: readonly number[];
}

export type Measured = MeasuredResponse | MeasuredImpedance;

/** Why a table is no measured curve; its line counts from 1. */
export interface MeasuredFault {
  readonly kind: 'fault';
  readonly line: number;
  readonly message: string;
}
