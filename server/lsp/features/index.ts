/** All features of the server. */
import type { Feature } from '../feature.js';
import { codeActions } from './code-actions.js';
import { codeLens } from './code-lens.js';
import { completion } from './completion.js';
import { definition } from './definition.js';
import { documentLinks } from './document-links.js';
import { documentSymbols } from './document-symbols.js';
import { folding } from './folding.js';
import { expectations } from './expectations.js';
import { formatting } from './formatting.js';
import { highlights } from './highlights.js';
import { hover } from './hover.js';
import { intent } from './intent.js';
import { inlayHints } from './inlay-hints.js';
import { references } from './references.js';
import { rename } from './rename.js';
import { selectionRanges } from './selection-ranges.js';
import { semanticTokens } from './semantic-tokens.js';
import { signatureHelp } from './signature-help.js';
import { workspaceSymbols } from './workspace-symbols.js';

export const features: readonly Feature[] = [
  hover,
  completion,
  signatureHelp,
  definition,
  references,
  rename,
  highlights,
  codeActions,
  codeLens,
  inlayHints,
  semanticTokens,
  documentSymbols,
  workspaceSymbols,
  documentLinks,
  folding,
  selectionRanges,
  formatting,
  expectations,
  intent,
];
