/** The text of a new record, one fact a line. */

/** `no-3.no-2.lug` beside `no-3.lug`. */
export function recordName(circuit: string, number: number): string {
  return `${circuit.replace(/\.lug$/, '')}.no-${number}.lug`;
}

export function recordText(circuit: string, number: number, done: readonly string[]): string {
  return [
    `use ${quoted(circuit)}`,
    '',
    `record ${number} {`,
    ...done.map((key) => `  done ${quoted(key)}`),
    '}',
    '',
    '// Measured part values, and readings of the finished instrument:',
    '// actual neck 6.31k { lead hot red }',
    '// measured : reads 6.15k',
    '',
  ].join('\n');
}

/** A string of the language: on one line, quotes and backslashes escaped. */
function quoted(text: string): string {
  return `"${text.replace(/[\r\n]+/g, ' ').replace(/["\\]/g, (mark) => `\\${mark}`)}"`;
}
