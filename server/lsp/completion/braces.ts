/** Where in a statement's braces something is typed. */
import { isSign, type Token } from '../../../language/grammar/index.js';

export interface Brace {
  /** The property whose values are being typed; absent where a name is. */
  readonly name?: string;
  /** Its values so far. */
  readonly values: readonly Token[];
  /** Names of the other properties in the braces. */
  readonly given: readonly string[];
}

/** `undefined` outside of braces. Properties stand apart by commas and lines; `line` is the one being typed on. */
export function braceAt(before: readonly Token[], line: number): Brace | undefined {
  const open = before.map((token) => isSign(token, '{')).lastIndexOf(true);
  if (open < 0 || before.slice(open).some((token) => isSign(token, '}'))) return undefined;
  let current: Token[] = [];
  const items = [current];
  for (const token of before.slice(open + 1)) {
    if (isSign(token, ',') || (token.first && current.length > 0)) items.push((current = []));
    if (!isSign(token, ',')) current.push(token);
  }
  // On a new line a new property begins.
  const last = current.at(-1);
  const isFresh = last === undefined || last.endLine < line;
  const [name, ...values] = isFresh ? [] : current;
  const given = (isFresh ? items : items.slice(0, -1)).flatMap(([first]) => (first === undefined ? [] : [first.image]));
  return { ...(name === undefined ? {} : { name: name.image }), values, given };
}
