/** The panel's page: nothing but the script and the style that lie in the extension may run or show in it. */
import { Uri, type Webview } from 'vscode';

/** `dist` is the folder of the bundles. */
export function panelPage(webview: Webview, dist: Uri): string {
  const nonce = createNonce();
  const script = webview.asWebviewUri(Uri.joinPath(dist, 'drawing-panel.js')).toString();
  const style = webview.asWebviewUri(Uri.joinPath(dist, 'drawing-panel.css')).toString();
  // Pictures are made by the panel itself, when a drawing is exported.
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${webview.cspSource}`,
    'img-src blob: data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Wiring drawing</title>
<link rel="stylesheet" href="${style}">
</head>
<body>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>
`;
}

function createNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
