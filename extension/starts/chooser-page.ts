/** The page of the chooser: links with pictures, without a script, so that the keyboard and a screen reader know them. */
import { escapeXml } from '../../language/escape.js';

export interface Choice {
  readonly text: string;
  readonly picture: string;
  readonly link: string;
}

export interface ChooserTexts {
  /** Of the page: `en`. */
  readonly language: string;
  readonly title: string;
  readonly says: string;
  /** Where pictures and the style may come from. */
  readonly source: string;
  /** Address of the style. */
  readonly style: string;
  readonly choices: readonly Choice[];
}

/** The whole page; every text and address in it is escaped. */
export function chooserPage({ language, title, says, source, style, choices }: ChooserTexts): string {
  const items = choices.map(
    ({ text, picture, link }) =>
      `<li><a href="${escapeXml(link)}"><img src="${escapeXml(picture)}" alt="">${escapeXml(text)}</a></li>`,
  );
  return `<!doctype html>
<html lang="${escapeXml(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src ${escapeXml(source)}; style-src ${escapeXml(source)}">
<title>${escapeXml(title)}</title>
<link rel="stylesheet" href="${escapeXml(style)}">
</head>
<body>
<main>
<h1>${escapeXml(title)}</h1>
<p>${escapeXml(says)}</p>
<ul>
${items.join('\n')}
</ul>
</main>
</body>
</html>
`;
}
