/** Text made safe for XML. */
import { printable } from './terminal.js';

/** Escapes what markup would read, and takes out what XML 1.0 does not allow; control characters are shown as marks. */
export function escapeXml(text: string): string {
  return printable(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&apos;')
    .replaceAll('\n', '&#10;')
    .replace(/[\ud800-\udfff\ufffe\uffff]/gu, '');
}
