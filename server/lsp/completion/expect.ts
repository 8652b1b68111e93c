/** What goes into `expect` and `measured`: controls, their positions, claims, arrangements; what is so now comes first. */
import { lastOf } from '../../../language/collections.js';
import { CompletionItemKind } from 'vscode-languageserver';
import { isSign, nextOf, type Token } from '../../../language/grammar/index.js';
import { elementById, readSettings, type Circuit, type Part } from '../../../language/circuit/index.js';
import { heardAt } from '../../../language/electrics/index.js';
import { claimsNow, type Now } from '../claims-now.js';
import { completionKindOf } from '../symbol-kinds.js';
import { words, type CompletionContext, type Offer } from './item.js';
import { endOffers, ownerOf, partOffers } from './lugs.js';

export function expectOffers(asked: CompletionContext): Offer[] {
  const { before, head } = asked;
  const colon = before.findIndex((token) => isSign(token, ':'));
  if (colon >= 0) return claimOffers(asked, before.slice(1, colon), before.slice(colon + 1));
  const last = lastOf(before);
  const between = before.findIndex(({ image }) => image === 'between');
  if (head !== 'measured' || between < 0) {
    const more = head === 'measured' && before.length === 1 ? words(['between'], 'two probes: between LUG and LUG', 6) : [];
    return [...settingOffers(asked.at.circuit, before.slice(1)), ...more];
  }
  const and = before.findIndex(({ image }) => image === 'and');
  if (and < 0 && last.image !== 'between' && !isSign(last, '.')) return words(['and']);
  const settings = and < 0 ? -1 : behindLug(before, and + 1);
  return settings < 0 ? endOffers(asked) : settingOffers(asked.at.circuit, before.slice(settings));
}

/** The place behind a lug that begins at a token; −1 while it is still being typed. */
function behindLug(tokens: readonly Token[], from: number): number {
  let end = from + 1;
  while (isSign(tokens[end], '.')) end += 2;
  return end > tokens.length ? -1 : end;
}

/** A control, or a position of the control before the cursor. */
function settingOffers(circuit: Circuit, said: readonly Token[]): Offer[] {
  const owner = ownerOf(said);
  if (owner !== undefined) {
    const part = circuit.parts.find(({ name }) => name === owner);
    const shafts = circuit.shafts.filter((shaft) => shaft.part === part?.id);
    return shafts.map(({ name }) => ({
      label: name.slice(owner.length + 1),
      kind: CompletionItemKind.Property,
      detail: 'shaft',
    }));
  }
  const control = openControl(said);
  if (control !== undefined) return positionOffers(circuit, control);
  const named = new Set(said.map(({ image }) => image));
  const isControl = (part: Part): boolean =>
    circuit.switches.some((device) => device.part === part.id) || circuit.shafts.some((shaft) => shaft.part === part.id);
  return [...partOffers(circuit, (part) => isControl(part) && !named.has(part.name)), ...words([':'], 'the claims', 6)];
}

function positionOffers(circuit: Circuit, control: string): Offer[] {
  const part = circuit.parts.find(({ name }) => name === control);
  const device = circuit.switches.find((one) => one.part === part?.id);
  const hasShaft = circuit.shafts.some((shaft) => shaft.part === part?.id || shaft.name === control);
  const positions = (device?.positions ?? []).map(({ label, key, number }): Offer => {
    const text = label === key ? label : `"${label.replace(/["\\]/g, '\\$&')}"`;
    return { label: text, text, kind: CompletionItemKind.EnumMember, detail: `position ${number}`, rank: 3 };
  });
  const rotations = hasShaft
    ? ['0', '5', '7', '10'].map((label): Offer => ({
        label,
        kind: CompletionItemKind.Value,
        detail: 'rotation, 0 to 10',
        rank: 4,
      }))
    : [];
  return [...positions, ...rotations];
}

/** The control before the cursor whose position is still missing. */
function openControl(said: readonly Token[]): string | undefined {
  const { slots } = nextOf('expect', [{ kind: 'word', image: 'expect' }, ...said]);
  if (!slots.some(({ slot }) => slot === 'position')) return undefined;
  let first = said.length - 1;
  while (isSign(said[first - 1], '.')) first -= 2;
  return textOf(said.slice(first));
}

/** What the circuit does now at the given output and settings; nothing where they can't be read. */
function nowAt({ at: { circuit }, analysis }: CompletionContext, said: readonly Token[]): Now | undefined {
  const isElsewhere = said[0]?.image === 'at';
  const end = isElsewhere ? behindLug(said, 1) : 0;
  const contact = circuit.lugs.find(({ label }) => label === textOf(said.slice(1, end)));
  if (isElsewhere && contact === undefined) return undefined;
  const settings = said.slice(isSign(said[end], ',') ? end + 1 : end);
  const read = settings.length === 0 ? { settings: [] } : readSettings(circuit, textOf(settings));
  return 'settings' in read ? claimsNow(analysis, heardAt(circuit, contact?.id), read.settings) : undefined;
}

/** Tokens on one line, tight where they are tight in the text. */
function textOf(tokens: readonly Token[]): string {
  return tokens.map(({ image, start }, i) => (i === 0 || tokens[i - 1]?.end === start ? image : ` ${image}`)).join('');
}

function claimOffers(asked: CompletionContext, said: readonly Token[], since: readonly Token[]): Offer[] {
  const { circuit } = asked.at;
  const depth = since.reduce((open, token) => open + (isSign(token, '(') ? 1 : isSign(token, ')') ? -1 : 0), 0);
  const lastComma = depth > 0 ? -1 : since.map((token) => isSign(token, ',')).lastIndexOf(true);
  const claim = since.slice(lastComma + 1);
  const [first] = claim;
  const now = (): Now | undefined => nowAt(asked, said);
  if (first === undefined) return [...soOffers(now()), ...allClaims(asked.head === 'measured')];
  const last = lastOf(claim);
  switch (first.image) {
    case 'sounds':
      return arrangementOffers(circuit, claim, depth, now);
    case 'hum':
      return claim.length === 1 ? words(['cancelled', 'partly', 'present']) : [];
    case 'reads':
      if (claim.length === 1) return [...valueNow(now()?.reads), ...words(['open', 'short'])];
      return withinOffers(claim, last);
    case 'peak':
      return claim.length === 1 ? valueNow(now()?.peak) : withinOffers(claim, last);
    case 'cutoff':
      return claim.length === 1 ? valueNow(now()?.cutoff) : withinOffers(claim, last);
    case 'level':
      return claim.length === 1 ? valueNow(now()?.level) : levelOffers(claim, last);
    default:
      return [];
  }
}

function withinOffers(claim: readonly Token[], { image }: Token): Offer[] {
  if (image === 'within') return ['5%', '10%', '15%', '20%'].map((label) => ({ label, kind: CompletionItemKind.Value }));
  return claim.length === 2 ? words(['within'], 'tolerance: within 15%') : [];
}

function levelOffers(claim: readonly Token[], { image }: Token): Offer[] {
  const values = (labels: readonly string[]): Offer[] =>
    labels.map((label) => ({ label, kind: CompletionItemKind.Value, detail: 'common practice' }));
  if (image === 'within') return values(['1dB', '0.5dB', '2dB', '3dB']);
  if (image === 'at') return values(['100Hz', '1kHz', '3kHz', '5kHz']);
  const isSaid = (word: string): boolean => claim.some((token) => token.image === word);
  if (isSaid('within')) return [];
  const within = words(['within'], 'tolerance: within 1dB');
  return isSaid('at') ? within : [...words(['at'], 'at this frequency: at 3kHz'), ...within];
}

/** What holds now, as claims. */
function soOffers(now: Now | undefined): Offer[] {
  const claims =
    now === undefined
      ? []
      : [
          now.sounds,
          now.hum,
          now.reads === undefined ? undefined : `reads ${now.reads}`,
          now.peak === undefined ? undefined : `peak ${now.peak}`,
          now.cutoff === undefined ? undefined : `cutoff ${now.cutoff}`,
          now.level === undefined ? undefined : `level ${now.level}`,
        ];
  return claims.flatMap((label): Offer[] =>
    label === undefined
      ? []
      : [{ label, kind: CompletionItemKind.Snippet, detail: 'current', rank: 2, isPreselected: label === now?.sounds }],
  );
}

function valueNow(value: string | undefined): Offer[] {
  return value === undefined ? [] : [{ label: value, kind: CompletionItemKind.Value, detail: 'current', rank: 2 }];
}

function allClaims(isMeasured: boolean): Offer[] {
  const forms: readonly (readonly [string, string, string])[] = [
    ['sounds', 'sounds ', 'what is heard: sounds ARRANGEMENT'],
    ['silent', 'silent', 'nothing is heard'],
    ['hum cancelled', 'hum cancelled', ''],
    ['hum present', 'hum present', ''],
    ['reads', 'reads ', 'the meter at the jack: reads OHMS within P%'],
    ['reads open', 'reads open', ''],
    ['reads short', 'reads short', ''],
    ['peak', 'peak ', 'the resonant peak: peak HZ within P%'],
    ['cutoff', 'cutoff ', 'where the treble is 3 dB down: cutoff HZ within P%'],
    ['level', 'level ', 'the loudness: level DB at HZ within DB'],
    ...(isMeasured ? ([['hums', 'hums', '']] as const) : []),
  ];
  return forms.map(([label, text, detail]) => ({ label, text, kind: CompletionItemKind.Keyword, detail, rank: 4 }));
}

function arrangementOffers(circuit: Circuit, claim: readonly Token[], depth: number, now: () => Now | undefined): Offer[] {
  const owner = ownerOf(claim);
  if (owner !== undefined) {
    const part = circuit.parts.find(({ name }) => name === owner);
    const coils =
      part?.elements.flatMap((id) => (elementById(circuit, id).kind === 'coil' ? [elementById(circuit, id).name] : [])) ?? [];
    return coils.map((label) => ({ label, kind: CompletionItemKind.Event, detail: `coil of ${owner}` }));
  }
  const last = lastOf(claim);
  const opens = last.image === 'sounds' || last.image === 'reversed' || isSign(last, '(') || isSign(last, ',');
  if (!opens) return [];
  const groups = ['series', 'parallel'].map((label): Offer => ({
    label,
    text: `${label}($0)`,
    isSnippet: true,
    kind: CompletionItemKind.Function,
    detail: `${label}(…, …)`,
    rank: 5,
  }));
  const used = new Set(claim.map(({ image }) => image));
  const pickups = circuit.parts
    .filter(
      (part) =>
        part.family === 'pickup' && part.parent === undefined && !(depth > 0 && used.has(part.name) && part.elements.length < 2),
    )
    .map(({ name, type, family }): Offer => ({
      label: name,
      kind: completionKindOf(family),
      detail: type,
      rank: 4,
      commits: ['.'],
    }));
  const so = last.image === 'sounds' ? now()?.sounds?.replace(/^sounds /, '') : undefined;
  const first: Offer[] =
    so === undefined || so === 'silent'
      ? []
      : [{ label: so, kind: CompletionItemKind.Snippet, detail: 'current', rank: 2, isPreselected: true }];
  return [
    ...first,
    ...pickups.filter(({ label }) => label !== so),
    ...groups,
    ...(last.image === 'reversed' ? [] : words(['reversed'], 'out of phase', 6)),
  ];
}
