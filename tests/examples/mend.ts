/** Mends a faulty example as its own comments say. */

/**
 * `// mended: TEXT` stands above the line that it replaces, `// missing: TEXT` where a line was left out,
 * `// superfluous: …` above a line that has to go.
 */
export function mend(text: string): string {
  const mended: string[] = [];
  const lines = text.split('\n');
  for (let at = 0; at < lines.length; at++) {
    const [, indent, word, rest] = /^( *)\/\/ (mended|missing|superfluous): (.*)$/.exec(lines[at]!) ?? [];
    if (word === undefined) mended.push(lines[at]!);
    else {
      if (word !== 'superfluous') mended.push(`${indent}${rest}`);
      if (word !== 'missing') at++;
    }
  }
  return mended.join('\n');
}
