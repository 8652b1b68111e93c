/** The texts of a panel in the editor's language. The extension hands them over with the page, by their English words. */

const texts = JSON.parse(document.body.dataset.texts ?? '{}') as Readonly<Record<string, string>>;

/** A text in the editor's language, English where it has no translation; `{0}`, `{1}` … are replaced by the values. */
export function t(text: string, ...values: readonly (string | number)[]): string {
  return (texts[text] ?? text).replace(/\{(\d+)\}/g, (_, index: string) => String(values[Number(index)] ?? ''));
}
