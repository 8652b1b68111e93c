/** Corrects a faulty example as its own comments say. */

/**
 * `// correct: TEXT` stands above the line that it replaces, `// missing: TEXT` where a line was left out,
 * `// superfluous: …` above a line that has to go.
 */
export function corrected(text: string): string {
  const result: string[] = [];
  const lines = text.split('\n');
  for (let at = 0; at < lines.length; at++) {
    const [, indent, word, rest] = /^( *)\/\/ (correct|missing|superfluous): (.*)$/.exec(lines[at]!) ?? [];
    if (word === undefined) result.push(lines[at]!);
    else {
      if (word !== 'superfluous') result.push(`${indent}${rest}`);
      if (word !== 'missing') at++;
    }
  }
  return result.join('\n');
}
