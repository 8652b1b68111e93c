/** Cuts a step's text at the names in it, so that any renderer can set them apart. */

export interface NamedPiece {
  readonly text: string;
  readonly isName: boolean;
}

/** The pieces in order, the whole text among them; a name counts where it stands as a word of its own. */
export function namedPieces(text: string, names: readonly string[]): readonly NamedPiece[] {
  const pieces: NamedPiece[] = [];
  let begun = 0;
  for (let from = 0; from < text.length; from++) {
    // Behind a point stands a lug of something else: `ground` in `neck.ground` is not the star.
    if (isWord(text[from - 1]) || text[from - 1] === '.') continue;
    const name = names.find((one) => one !== '' && text.startsWith(one, from) && !isWord(text[from + one.length]));
    if (name === undefined) continue;
    if (from > begun) pieces.push({ text: text.slice(begun, from), isName: false });
    pieces.push({ text: name, isName: true });
    begun = from + name.length;
    from = begun - 1;
  }
  return begun < text.length ? [...pieces, { text: text.slice(begun), isName: false }] : pieces;
}

function isWord(mark: string | undefined): boolean {
  return mark !== undefined && /[\p{L}\p{N}_-]/u.test(mark);
}
