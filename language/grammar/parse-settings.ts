/** Settings outside of any file (`selector 1, volume 5`), read by the rule that reads those of `expect`. */
import { settings } from './build-claims.js';
import { stopMessage } from './messages.js';
import { rulesOf, tokenRange, type LocalProblem } from './parse-statement.js';
import { parseSettingList } from './reading/read.js';
import { soundTokens } from './signs.js';
import { isComment, tokenize, type Token } from './tokens.js';
import type { LocalRange, SettingNode } from './tree.js';
import { visible } from '../escape.js';

/** What a message about settings says they need, and what may follow. */
const says = {
  needs: 'a setting is a control and its position: selector 1, volume 5',
  more: 'separate settings by commas: selector 1, volume 5',
};

/** Reads settings, at least one. Where there is a problem there are no settings; places are counted in the text. Never throws, whatever the text. */
export function parseSettings(text: string): {
  readonly settings: readonly SettingNode[];
  readonly problems: readonly LocalProblem[];
} {
  const tokens = tokenize(text);
  const refused = tokens.find((token) => isComment(token) || token.line > 0);
  if (refused !== undefined) {
    const what = isComment(refused) ? 'a comment does not belong here' : 'settings are written on one line';
    return failed(`${what}; ${says.more}`, at(refused.start));
  }
  const { result, problem } = parseSettingList(soundTokens(tokens, false));
  if (problem !== undefined) return failed(problem.message, tokenRange(problem.token));
  const error = result?.parserErrors[0];
  if (result === undefined || error !== undefined) {
    const found = tokens.find((token) => token.start === error?.token.startOffset);
    return failed(stopMessage({ says, ...stopOf(error, found) }), found === undefined ? at(text.length) : tokenRange(found));
  }
  return { settings: settings(result.value.settings), problems: [] };
}

function stopOf(error: (Parameters<typeof rulesOf>[0] & { readonly message?: string }) | undefined, found: Token | undefined) {
  // Where the text should have ended, it was whole already.
  const expected = (error?.message ?? 'NAME').split(' ').filter((name) => name !== '' && name !== 'EOF');
  const rules = error === undefined ? ['Setting'] : rulesOf(error);
  return { expected, rules, ...(found === undefined ? {} : { found: found.image }) };
}

function at(offset: number): LocalRange {
  const place = { line: 0, character: offset };
  return { start: place, end: place };
}

function failed(message: string, range: LocalRange) {
  return { settings: [], problems: [{ message: visible(message), range }] };
}
