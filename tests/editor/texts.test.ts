/** The extension's own texts: each goes through the editor's translation, and the bundle and the pages hold what that needs. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { panelPage } from '../../extension/preview/html.js';
import { textBundleFile, translatedTexts } from '../../extension/scripts/texts.js';
import { sourceTexts } from '../texts/source-texts.js';
import { root } from './hosts/place.js';

const [path, made] = textBundleFile(root);
const bundle = JSON.parse(readFileSync(join(root, path), 'utf8')) as Readonly<Record<string, string>>;

/** Not translated: the log, names that a program compares, and the circuit that a new document begins with. */
const exceptions = [
  /^extension\/(scripts|starter\.ts|sheet\/record-text\.ts)/,
  /^extension\/preview\/html\.ts:.*(img-src|<!DOCTYPE)/,
  /: (changed lines|drawing beforehand|bench sheet|comparison): /,
  /: (the drawing could not be exported: |ignored an unknown message)/,
  /^extension\/sheet\/ticks\.ts: bench sheet/,
  /^extension\/tasks\.ts: /,
  /^extension\/compare\/webview\/tables\.ts: (cut list|not read)$/,
  /^extension\/preview\/webview\/figures\.ts: /,
  /^extension\/page\/webview\/theme\.ts: \(prefers-/,
  /: (plain|badge|finding|swatch|change-badge) \{/,
  /: (note cautions|note key|plain reset|fix plain|class d x y .*)$/,
];

describe('the bundle of texts', () => {
  test('holds every text of the sources, and no other', () => {
    expect(readFileSync(join(root, path), 'utf8')).toBe(made);
    for (const [text, translation] of Object.entries(bundle)) expect(translation).toBe(text);
  });

  test('holds every sentence of the extension that a person reads', () => {
    const open = sourceTexts()
      .filter(({ file }) => file.startsWith('extension/'))
      .filter(({ text }) => bundle[text] === undefined && !Object.keys(bundle).some((known) => isSame(known, text)))
      .map(({ file, text }) => `${file}: ${text}`)
      .filter((line) => !exceptions.some((exception) => exception.test(line)));
    expect(open).toEqual([]);
  });

  test('cannot be made of a text that is put together', () => {
    expect(translatedTexts('x.ts', "l10n.t('Lug {0}', a); t('Side');")).toEqual(['Lug {0}', 'Side']);
    expect(() => translatedTexts('x.ts', 't(`Lug ${a}`);')).toThrow(/written out/);
  });
});

test('a page hands its panel the language and the texts, whatever they hold', () => {
  const texts = { 'Zoom in': 'A <b> & "c"' };
  const html = panelPage({ title: 'x', language: 'de', texts, script: 'a.js', style: 'a.css', source: 'self', nonce: 'n' });
  expect(html).toContain('<html lang="de">');
  const [, kept] = /<body data-texts="([^"]*)">/.exec(html)!;
  const read = kept!.replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&amp;', '&');
  expect(JSON.parse(read)).toEqual(texts);
});

/** The finder collapses spaces. */
function isSame(known: string, text: string): boolean {
  return known.replace(/\s+/g, ' ').trim() === text;
}
