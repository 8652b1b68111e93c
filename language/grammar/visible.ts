/** What cannot be seen in a text, or makes it look like another one, is shown as a mark, so that no name can disturb what shows it. */

/**
 * Control characters (a terminal obeys them, XML forbids them), line ends that only some programs see, and marks that turn the direction
 * of writing for what follows (Unicode Technical Report 36). Those that only say how one letter is joined or read stay.
 */
// eslint-disable-next-line no-control-regex
const hidden = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

/** The text with `mark` for each such character; tabs and line feeds stay. */
export function visible(text: string, mark = '\uFFFD'): string {
  return text.replace(hidden, mark);
}
