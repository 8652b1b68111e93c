/** The path of one file as seen from another, as a `use` line writes it. */

/** `undefined` where the two lie in different places altogether. */
export function relativePath(from: string, to: string): string | undefined {
  const [there, here] = [to, from].map((uri) => /^([^:]+:(?:\/\/[^/]*)?)(\/.*)$/.exec(uri));
  if (there === null || here === null || there === undefined || here === undefined || there[1] !== here[1]) return undefined;
  const [target, source] = [there[2]!, here[2]!].map((path) => path.split('/').map(decode)) as [string[], string[]];
  let common = 0;
  while (common < target.length - 1 && common < source.length - 1 && target[common] === source[common]) common++;
  return [...source.slice(common, -1).map(() => '..'), ...target.slice(common)].join('/');
}

function decode(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    // A lone percent sign is part of the name.
    return step;
  }
}
