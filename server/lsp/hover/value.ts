/** Hover on a value: what it is in full, how it is printed on parts, and the nearest preferred value of IEC 60063. */
import { wireDiameter } from '../../../language/circuit/index.js';
import { formatQuantity, parseValue } from '../../../language/grammar/index.js';
import { isPreferred, letterCode, nearestPreferred, threeDigitCode, wireResistance } from '../../../language/electrics/index.js';
import { code, table } from './markdown.js';

/** `undefined` where the word is no value. */
export function valueHover(text: string): string | undefined {
  const parsed = parseValue(text);
  if (parsed === undefined) return undefined;
  const { unit, value } = parsed;
  const rows: [string, string][] = [[code(text), formatQuantity(value, unit, 4)]];
  if (unit === 'ohm' || unit === 'farad') {
    rows.push(['letter code (IEC 60062)', code(letterCode(value, unit))]);
    const digits = unit === 'farad' ? threeDigitCode(value) : undefined;
    if (digits !== undefined) rows.push(['three digits', code(digits)]);
  }
  if ((unit === 'ohm' || unit === 'farad' || unit === 'henry') && value > 0) rows.push(['IEC 60063', preferred(value, unit)]);
  if (unit === 'awg') {
    rows.push(['conductor', `${formatQuantity(wireDiameter(value), 'metre')} across (ASTM B258)`]);
    rows.push(['resistance', `${formatQuantity(wireResistance(value, 1), 'ohm')} a metre of copper`]);
  }
  if (unit === 'metre') rows.push(['in inches', `${Number((value / 0.0254).toPrecision(3))} in`]);
  return table(rows);
}

/** Letter code, and the three digits of a capacitor. */
export function codesOf(value: number, unit: 'ohm' | 'farad'): string | undefined {
  if (!(value > 0)) return undefined;
  const digits = unit === 'farad' ? threeDigitCode(value) : undefined;
  return digits === undefined ? letterCode(value, unit) : `${letterCode(value, unit)}, ${digits}`;
}

function preferred(value: number, unit: 'ohm' | 'farad' | 'henry'): string {
  if (isPreferred(value, 'E12')) return 'in E12';
  const [e12, e24] = [nearestPreferred(value, 'E12'), nearestPreferred(value, 'E24')].map((one) => formatQuantity(one, unit)) as [
    string,
    string,
  ];
  return isPreferred(value, 'E24') ? `in E24; nearest in E12 ${e12}` : `nearest in E12 ${e12}, in E24 ${e24}`;
}
