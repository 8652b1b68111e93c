/** The panel's page: nothing but the script and the style that lie in the extension may run or show in it. */

export interface PageOptions {
  /** The language of `texts`; English where nothing is said. */
  readonly language?: string;
  /** The panel's texts in that language, by their English words. */
  readonly texts?: Readonly<Record<string, string>>;
  /** What the page is called. */
  readonly title: string;
  /** Addresses of the script and the style. */
  readonly script: string;
  readonly style: string;
  /** Where the editor serves files of the extension from. */
  readonly source: string;
  readonly nonce: string;
}

export function panelPage({ title, language = 'en', texts = {}, script, style, source, nonce }: PageOptions): string {
  // Pictures are made by the panel itself, when a drawing is exported.
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${source}`,
    'img-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<link rel="stylesheet" href="${style}">
</head>
<body data-texts="${escaped(JSON.stringify(texts))}">
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}

/** A word that a page is served with once. */
export function createNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
