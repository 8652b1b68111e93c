/** Whether a text is well-formed XML, as strictly as the recommendation has it for what our outputs use: elements, attributes, comments, references. */

const name = '[A-Za-z_:][\\w:.-]*';
const tag = new RegExp(`^<(/?)(${name})((?:\\s+${name}\\s*=\\s*(?:"[^"<]*"|'[^'<]*'))*)\\s*(/?)>`);
const attribute = new RegExp(`(${name})\\s*=\\s*("[^"]*"|'[^']*')`, 'g');
/** Characters that XML 1.0 allows (production 2). */
const forbidden = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/u;
const reference = /&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\dA-Fa-f]+);)/;

export interface Markup {
  /** The first thing that is wrong, with what stands there. */
  readonly problem?: string;
  readonly elements: ReadonlySet<string>;
  readonly attributes: ReadonlySet<string>;
}

export function readMarkup(text: string): Markup {
  const [elements, attributes] = [new Set<string>(), new Set<string>()];
  const open: string[] = [];
  const wrong = (what: string, at: number): Markup => ({
    problem: `${what}: ${JSON.stringify(text.slice(at, at + 80))}`,
    elements,
    attributes,
  });
  const bad = text.search(forbidden);
  if (bad >= 0) return wrong('a character that XML forbids', bad);
  let at = /^<\?xml [^?]*\?>/.exec(text)?.[0].length ?? 0;
  while (at < text.length) {
    const next = text.indexOf('<', at);
    const words = text.slice(at, next < 0 ? undefined : next);
    const loose = words.search(/]]>/) >= 0 || reference.test(words);
    if (loose || (open.length === 0 && words.trim() !== '')) return wrong('text that does not stand here', at);
    if (next < 0) break;
    if (text.startsWith('<!--', next)) {
      const end = text.indexOf('-->', next + 4);
      if (end < 0 || text.slice(next + 4, end).includes('--')) return wrong('a comment', next);
      at = end + 3;
      continue;
    }
    const found = tag.exec(text.slice(next));
    if (found === null) return wrong('no tag', next);
    const [whole, closes, element, own, empty] = found as unknown as [string, string, string, string, string];
    const names = [...own.matchAll(attribute)].map(([, one]) => one!);
    if (reference.test(own) || new Set(names).size !== names.length) return wrong('attributes', next);
    elements.add(element);
    names.forEach((one) => attributes.add(one));
    if (closes !== '' ? open.pop() !== element : false) return wrong('a tag that closes another', next);
    if (closes === '' && empty === '') open.push(element);
    at = next + whole.length;
  }
  return open.length === 0 ? { elements, attributes } : wrong(`<${open.join('> <')}> not closed`, text.length);
}
