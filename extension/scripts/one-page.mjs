// Puts a bundle's script and style into one HTML file, with a policy that lets these two run and nothing else.
import { Buffer } from 'node:buffer';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** The file, with a mark where `fillPage` puts what differs from page to page. */
function pageOf({ policy, style, script }) {
  return `<!doctype html>
<html lang="<!--lugwork:language-->">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title><!--lugwork:title--></title>
<style>${style}</style>
</head>
<body data-texts="<!--lugwork:texts-->">
<main>
<h1><!--lugwork:title--></h1>
<!--lugwork:lead-->
<div id="live"></div>
<noscript><p>The drawing and the controls need JavaScript; what follows does not.</p></noscript>
<div class="words">
<!--lugwork:words-->
</div>
</main>
<script type="application/json" id="instrument"><!--lugwork:data--></script>
<script>${script}</script>
</body>
</html>
`;
}

/** A plugin that makes `NAME.html` of `NAME.js` and `NAME.css`; `notices` are packages whose licence goes into the page. */
export function inOnePage(notices) {
  return {
    name: 'one-page',
    setup({ initialOptions, onEnd }) {
      const root = resolve(initialOptions.absWorkingDir ?? '.');
      onEnd(({ outputFiles, errors }) => {
        if (errors.length > 0) return;
        const [script, style] = ['.js', '.css'].map((ending) => outputFiles.find(({ path }) => path.endsWith(ending)));
        const inside = {
          script: notices.map((name) => licenceOf(root, name)).join('') + scriptSafe(script.text),
          style: style.text.trim(),
        };
        const sources = Object.entries(inside).map(([kind, text]) => `${kind}-src 'sha256-${hash(text)}'`);
        const policy = ["default-src 'none'", ...sources, "base-uri 'none'", "form-action 'none'"].join('; ');
        const contents = Buffer.from(pageOf({ policy, ...inside }));
        outputFiles.splice(0, outputFiles.length, { path: script.path.replace(/\.js$/, '.html'), contents });
      });
    },
  };
}

/** Neither a comment nor an end of the element can begin inside the script: where these signs occur in JavaScript they are in strings or patterns. */
function scriptSafe(script) {
  return script
    .replaceAll('<!--', '\\x3C!--')
    .replace(/<\/(?=script)/gi, '<\\/')
    .trim();
}

function licenceOf(root, name) {
  const folder = join(root, 'node_modules', name);
  const { version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const licence = readFileSync(join(folder, 'LICENSE'), 'utf8').trim();
  return `/* This page holds ${name} ${version} as published, only joined and shortened:\n${licence}\n*/\n`;
}

function hash(text) {
  return createHash('sha256').update(text).digest('base64');
}
