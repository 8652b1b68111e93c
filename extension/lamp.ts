/** Where the lamp that offers fixes would lie over the text: an editor puts it there if the gutter of the line holds an icon already. */

/** What of a document is looked at. */
export interface Lines {
  readonly uri: { toString(): string };
  readonly lineCount: number;
  lineAt(line: number): { readonly text: string };
}

/**
 * True where a lamp at the line would cover its first letters: the gutter holds the icon of a test or a mark of a change, and no line beside it is
 * empty or indented, where an editor would put the lamp instead. Fixes asked for by key or from the hover are not concerned.
 */
export function isLampInTheWay(document: Lines, line: number, marked: ReadonlyMap<string, ReadonlySet<number>>): boolean {
  const textAt = (at: number): string => (at < 0 || at >= document.lineCount ? '' : document.lineAt(at).text);
  const hasIcon = /^expect(?![\w-])/.test(textAt(line)) || marked.get(document.uri.toString())?.has(line) === true;
  return hasIcon && [line - 1, line + 1].every((at) => /^\S/.test(textAt(at)));
}
