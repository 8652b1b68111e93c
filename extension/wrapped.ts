/** A text broken into lines that fit an editor beside another one, which breaks none by itself. */

/** Columns that half a screen has room for. */
const room = 48;

/** Long lines broken at spaces, what follows indented as the line is. A reading to be copied into the circuit stays one line. */
export function wrapped(text: string): string {
  return text
    .split('\n')
    .flatMap((line) => (line.length <= room || /^\s*measured\b/.test(line) ? [line] : broken(line)))
    .join('\n');
}

function broken(line: string): string[] {
  const indent = ' '.repeat(/^\s*(?:\d+\.\s+)?/.exec(line)?.[0].length ?? 0);
  const lines: string[] = [];
  let rest = line;
  while (rest.length > room) {
    const at = rest.lastIndexOf(' ', room);
    // A word longer than the room goes past it.
    const cut = at > indent.length ? at : rest.indexOf(' ', room);
    if (cut < 0) break;
    lines.push(rest.slice(0, cut));
    rest = indent + rest.slice(cut + 1);
  }
  return [...lines, rest];
}
