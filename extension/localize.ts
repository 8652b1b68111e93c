/** The editor's language, for what cannot ask the editor itself: pages of panels, and modules that tests run without an editor. */
import { env, l10n } from 'vscode';

/** A text in the editor's language; `{0}`, `{1}` … are replaced by the values. `l10n.t` is one. */
export type Translate = (text: string, ...values: (string | number)[]) => string;

/** What a panel's page needs to speak the editor's language; nothing where that is English. */
export function pageLanguage(): { readonly language?: string; readonly texts?: Readonly<Record<string, string>> } {
  return l10n.bundle === undefined ? {} : { language: env.language, texts: l10n.bundle };
}
