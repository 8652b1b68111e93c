/** Parts of a document that are made from the code: a block stands between two marks, the text around it is written by hand. */

/** Puts each block's text between its marks `<!-- made: NAME -->` and `<!-- end -->`. Throws where a document and its blocks do not match. */
export function fillBlocks(document: string, blocks: ReadonlyMap<string, string>): string {
  const missing = new Set(blocks.keys());
  const filled = document.replace(
    /(<!-- made: ([\w-]+) -->\n)[^]*?(<!-- end -->)/g,
    (_, open: string, name: string, close: string) => {
      const text = blocks.get(name);
      if (text === undefined) throw new Error(`The document asks for the block “${name}”, but nothing generates it.`);
      missing.delete(name);
      return `${open}\n${text.trimEnd()}\n\n${close}`;
    },
  );
  if (missing.size > 0) throw new Error(`The document has no place for ${[...missing].join(', ')}.`);
  return filled;
}
