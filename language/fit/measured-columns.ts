/** The words by which measuring programs name their columns, with the factor to Hz, dB, ohms and degrees. */

export type ColumnName = 'hz' | 'db' | 'ohm' | 'deg';

export interface Column {
  readonly name: ColumnName;
  readonly index: number;
  /** What a number in it is multiplied by. */
  readonly times: number;
}

/** A level that is no decibel. */
export interface VoltColumn {
  readonly volt: true;
}

/** Units as a header may give them, without their brackets. */
const units: Readonly<Record<string, readonly [ColumnName, times: number] | 'volt'>> = {
  hz: ['hz', 1],
  khz: ['hz', 1e3],
  db: ['db', 1],
  dbv: ['db', 1],
  dbu: ['db', 1],
  dbfs: ['db', 1],
  dbr: ['db', 1],
  v: 'volt',
  mv: 'volt',
  volt: 'volt',
  volts: 'volt',
  ohm: ['ohm', 1],
  ohms: ['ohm', 1],
  Ω: ['ohm', 1],
  kohm: ['ohm', 1e3],
  kohms: ['ohm', 1e3],
  kω: ['ohm', 1e3],
  ω: ['ohm', 1],
  deg: ['deg', 1],
  degree: ['deg', 1],
  degrees: ['deg', 1],
  '°': ['deg', 1],
  rad: ['deg', 180 / Math.PI],
  radian: ['deg', 180 / Math.PI],
  radians: ['deg', 180 / Math.PI],
};

/** What is measured, and which columns these words may name: a magnitude may be one of a level or of an impedance. */
const quantities: Readonly<Record<string, readonly ColumnName[]>> = {
  frequency: ['hz'],
  freq: ['hz'],
  f: ['hz'],
  level: ['db'],
  gain: ['db'],
  response: ['db'],
  amplitude: ['db'],
  magnitude: ['db', 'ohm'],
  mag: ['db', 'ohm'],
  impedance: ['ohm'],
  z: ['ohm'],
  '|z|': ['ohm'],
  phase: ['deg'],
  angle: ['deg'],
};

/** The column that a header names: a unit (`hz`), a quantity (`frequency`), or both (`Magnitude (dB)`, `freq_khz`); undefined for any other word. */
export function columnOf(text: string, index: number): Column | VoltColumn | undefined {
  const [head = '', ...rest] = text
    .toLowerCase()
    .replace(/[_\s()[\],/:]+/g, ' ')
    .trim()
    .split(' ');
  const unit = units[rest.length === 0 ? head : (rest.at(-1) ?? '')];
  const quantity = quantities[head];
  if (unit === 'volt') return quantity === undefined || quantity.includes('db') ? { volt: true } : undefined;
  if (unit === undefined) {
    const [name] = quantity ?? [];
    return name === undefined || rest.length > 0 ? undefined : { name, index, times: 1 };
  }
  const [name, times] = unit;
  const isKnown = rest.length === 0 || (rest.length === 1 && quantity?.includes(name) === true);
  return isKnown ? { name, index, times } : undefined;
}
