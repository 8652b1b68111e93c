/** completion/: what may be typed at a place, a file a family of statements. */
import type { CompletionItem } from 'vscode-languageserver';
import { demandingWords, isBodyWord, isSign } from '../../../language/grammar/index.js';
import { expectOffers } from './expect.js';
import { toItem, type CompletionContext, type Offer } from './item.js';
import { partOffersFor } from './part.js';
import {
  allowOffers,
  cavityOffers,
  channelOffers,
  instrumentOffers,
  placeOffers,
  plateOffers,
  actualOffers,
  buildOffers,
  recordOffers,
  rigOffers,
  useOffers,
} from './places.js';
import { grammarOffers, statementOffers } from './statements.js';
import { templateOffers } from './templates.js';
import { bodyOffers, typeHeadOffers } from './type-body.js';
import { wireOffers } from './wire.js';

export type { CompletionContext as Asked } from './item.js';

/** All offers at a place, in their order. */
export function completionsAt(asked: CompletionContext): CompletionItem[] {
  return offersAt(asked).map((offer, index) => toItem(offer, index, asked.range));
}

const byHead: ReadonlyMap<string, (asked: CompletionContext) => Offer[]> = new Map(
  Object.entries({
    part: partOffersFor,
    wire: wireOffers,
    solder: wireOffers,
    expect: expectOffers,
    measured: expectOffers,
    cavity: cavityOffers,
    channel: channelOffers,
    plate: plateOffers,
    place: placeOffers,
    use: useOffers,
    instrument: instrumentOffers,
    rig: rigOffers,
    build: buildOffers,
    record: recordOffers,
    actual: actualOffers,
    allow: allowOffers,
    type: typeHeadOffers,
  }),
);

function offersAt(asked: CompletionContext): Offer[] {
  const { head, word } = asked;
  if (head === undefined) return word.startsWith('"') ? [] : [...statementOffers(asked), ...templateOffers(asked)];
  return (byHead.get(head) ?? (isBodyWord(head) ? bodyOffers : grammarOffers))(asked);
}

/** True where a list may open by itself behind a space: at the end of a line it would be in the way. */
export function isDemanded({ before, head }: CompletionContext): boolean {
  const last = before[before.length - 1];
  if (last === undefined) return false;
  if (before.length === 1) return head !== 'part' && head !== 'type' && head !== 'cavity';
  return (
    demandingWords.has(last.image) ||
    [':', ',', '{', '('].some((sign) => isSign(last, sign)) ||
    (last.kind === 'word' && (isSetting(before) || before.at(-2)?.image === 'lead'))
  );
}

/** Behind a control's name its position must follow. */
function isSetting(before: CompletionContext['before']): boolean {
  const [head] = before;
  return (head?.image === 'expect' || head?.image === 'measured') && !before.some((token) => isSign(token, ':'));
}
