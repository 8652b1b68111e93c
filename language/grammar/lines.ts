/** The lines of a text, counted as the Language Server Protocol and the parser count them: CR LF, LF and a lone CR each end one. */

/** The lines, without their ends; a text that ends in a line end has an empty last one. */
export function linesOf(text: string): string[] {
  return text.split(/\r\n|\r|\n/);
}

/** The line end that new lines of the text get: that of its first line, LF for a lone CR and where there is none. */
export function lineEndOf(text: string): '\r\n' | '\n' {
  return /^[^\r\n]*\r\n/.test(text) ? '\r\n' : '\n';
}
