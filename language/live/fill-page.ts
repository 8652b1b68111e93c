/** Fills the template of the page, which the build makes of its script and style, with the contents of one instrument's page. */
import { escapeXml } from '../escape.js';
import type { PageContents } from './page.js';

/** The language of the script's texts; English where nothing is said. */
export interface PageLanguage {
  readonly language?: string;
  /** Texts in that language by their English words. */
  readonly texts?: Readonly<Record<string, string>>;
}

/** The page as one HTML text. Throws an Error where the template lacks a mark: it is then of another version. */
export function fillPage(template: string, contents: PageContents, { language = 'en', texts = {} }: PageLanguage = {}): string {
  const values: Readonly<Record<string, string>> = {
    language: escapeXml(language),
    title: escapeXml(contents.title.replace(/\s+/g, ' ')),
    texts: escapeXml(JSON.stringify(texts)),
    lead: contents.lead,
    words: contents.words,
    data: contents.data,
  };
  const missing = Object.keys(values).find((name) => !template.includes(`<!--lugwork:${name}-->`));
  if (missing !== undefined)
    throw new Error(`the page’s template has no place for its ${missing}; build or install lugwork again`);
  // In one pass, so that nothing in a value is taken for a mark.
  return template.replace(/<!--lugwork:(\w+)-->/g, (mark, name: string) => values[name] ?? mark);
}
