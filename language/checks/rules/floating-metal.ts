/** Metal that is not on ground in every position. */
import { lugById, partOfLug, type AnalysedCircuit, type Element, type LugId } from '../../circuit/model.js';
import { nets, type Nets, type Setting, type Ungrounded, netOf } from '../../electrics/index.js';
import { endsOf, lugLabel, lugLabels, abridged, placeOfLug, settingsOf, describeSettings, type Facts } from '../facts/index.js';
import { isCarrier } from '../facts/wiring/leads.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';
import type { Statement } from '../../source.js';
import { append } from '../../collections.js';

interface Claim extends Statement {
  readonly kind: 'on-signal' | 'unwired' | 'ungrounded';
  readonly subjects: { readonly metal: readonly string[]; readonly signal?: string };
  /** Where ground is cut off: the metal to which most is soldered, and what else has no way to ground without it. */
  readonly observed?: readonly [CutOff];
}

interface CutOff extends Statement {
  readonly kind: 'cut-off';
  readonly subjects: { readonly hub: string; readonly connected: readonly string[] };
}

export const floatingMetal = defineRule<Claim>({
  id: 'floating-metal',
  severity: 'error',
  summary: 'a case, frame, cover, plate, shield or the strings not on ground in every position',
  describe({ kind, subjects: { metal, signal = '' }, observed, ...claim }) {
    const isOne = metal.length === 1;
    const [names, where] = [abridged(metal), describeSettings(claim)];
    if (observed !== undefined) {
      const [{ subjects }] = observed;
      return `${subjects.hub} and what is connected to it (${abridged(subjects.connected)}) have no way to ground ${where || everywhere('any', claim)}`;
    }
    if (kind === 'unwired') return `${names} is not on ground: nothing is soldered to it`;
    if (kind === 'on-signal')
      return `${names} ${isOne ? 'is' : 'are'} on the signal (${signal})${where && ` ${where}`}, not on ground`;
    return `${names} ${isOne ? 'is' : 'are joined together but'} not connected to ground ${where || everywhere('any', claim)}`;
  },
  check(facts): readonly Report<Claim>[] {
    const { circuit, joined, unread } = facts;
    if (circuit.output === undefined || facts.outputFault() !== undefined || unread.any) return [];
    const islands = new Map<number, Island>();
    for (const item of facts.ground().ungrounded) {
      if (isLeftToOthers(facts, item.lug)) continue;
      const classId = joined.classOf(item.lug);
      const island = islands.get(classId);
      if (island === undefined) islands.set(classId, [item]);
      else island.push(item);
    }
    const netsIn = createNetIndex(circuit);
    return [...islands.values()]
      .filter((island) => !hangsOnAPart(netsIn, island[0]))
      .map((island) => reportOf(facts, netsIn, island));
  },
});

/** Metal that is joined together. */
type Island = [Ungrounded, ...Ungrounded[]];

/** A part without a wire, a screen tied nowhere: their own rules tell them. */
function isLeftToOthers({ circuit, joined }: Facts, lug: LugId): boolean {
  const part = partOfLug(circuit, lug);
  return joined.isUnwired(part.id) || (part.family === 'screen' && joined.at(lug).length === 0);
}

/** Strings or a screen may hang on ground through a capacitor or a resistor, for the player's safety or against a loop. */
function hangsOnAPart(netsIn: NetIndex, { lug, settings }: Ungrounded): boolean {
  return settings.every((setting) => {
    const { folded, endingOn } = netsIn(setting);
    const here = netOf(folded, lug);
    // Where something else ends too, a pot's track say, the net is the signal's, and the part no way to ground of its own.
    const ends = endingOn(here);
    return (
      ends.length > 0 &&
      ends.every((element) => {
        if (element.kind !== 'resistor' && element.kind !== 'capacitor') return false;
        const [a, b] = [folded.of[element.a], folded.of[element.b]];
        return (a === here && b === folded.ground) || (b === here && a === folded.ground);
      })
    );
  });
}

/** The nets of a setting, and the elements that end on each. */
interface IndexedNets {
  readonly folded: Nets;
  readonly endingOn: (net: number) => readonly Element[];
}

type NetIndex = (setting: Setting) => IndexedNets;

/** Each metal is mostly asked about in the same setting as the one before, so the last one is kept. */
function createNetIndex(circuit: AnalysedCircuit): NetIndex {
  let last: { readonly setting: Setting; readonly nets: IndexedNets } | undefined;
  return (setting) => {
    if (last?.setting !== setting) last = { setting, nets: indexNets(circuit, setting) };
    return last.nets;
  };
}

function indexNets(circuit: AnalysedCircuit, setting: Setting): IndexedNets {
  const folded = nets(circuit, setting.positions);
  const at = new Map<number, Element[]>();
  for (const element of circuit.elements) {
    for (const net of new Set(endsOf(element).map((lug) => netOf(folded, lug)))) append(at, net, element);
  }
  return { folded, endingOn: (net) => at.get(net) ?? [] };
}

function reportOf(facts: Facts, netsIn: NetIndex, [first, ...others]: Island): Report<Claim> {
  const { circuit } = facts;
  const metal = [first, ...others].map(({ lug }) => lug);
  const settings = first.always ? facts.settings() : first.settings;
  const where = first.always ? triedIn(facts) : settingsOf(circuit, facts.settings(), settings);
  const hot = settings[0] && signalOn(facts, netsIn, first.lug, settings[0]);
  const isCutOff = hot !== undefined && settings.every((setting) => isReturn(facts, netsIn, first.lug, setting));
  const isUnwired = others.length === 0 && facts.joined.at(first.lug).length === 0;
  const subjects = { metal: lugLabels(circuit, metal), ...(hot === undefined ? {} : { signal: hot }) };
  const place = isCutOff ? hubOf(facts, metal) : first.lug;
  return {
    claim:
      hot === undefined && isUnwired
        ? { kind: 'unwired', subjects }
        : {
            kind: hot === undefined ? 'ungrounded' : 'on-signal',
            subjects,
            ...where,
            ...(isCutOff ? { observed: [cutOff(facts, place)] } : {}),
          },
    why:
      hot === undefined || isCutOff
        ? 'Ungrounded metal picks up hum and buzzes when it is touched. Wire it to any case, plate or star that is on ground; it is right when the meter reads near zero ohms to the sleeve.'
        : 'Metal on the signal is an aerial that you touch: it hums, and where it touches grounded metal the signal is shorted.',
    range: placeOfLug(circuit, place),
    related: metal
      .filter((lug) => lug !== place)
      .map((lug) => ({ message: `${lugLabel(circuit, lug)} as well`, range: placeOfLug(circuit, lug) })),
    subjects: lugLabels(circuit, metal),
  };
}

/** True where nothing but returns of pickups is on the metal: it is ground that is cut off, not the hot side. */
function isReturn({ circuit }: Facts, netsIn: NetIndex, lug: LugId, setting: Setting): boolean {
  const { folded, endingOn } = netsIn(setting);
  const here = netOf(folded, lug);
  const isGroundLead = (end: LugId): boolean => folded.of[end] !== here || lugById(circuit, end).name === 'ground';
  return (
    here !== folded.tip &&
    endingOn(here)
      .filter(({ kind }) => kind === 'coil')
      .every(({ a, b }) => isGroundLead(a) && isGroundLead(b))
  );
}

/** The metal to which most is soldered; of several the first. */
function hubOf({ joined }: Facts, metal: readonly LugId[]): LugId {
  return metal.reduce((hub, lug) => (joined.at(lug).length > joined.at(hub).length ? lug : hub));
}

function cutOff({ circuit, joined }: Facts, hub: LugId): CutOff {
  const connected = joined.members(joined.classOf(hub)).filter((lug) => lug !== hub && !isCarrier(circuit, lug));
  return { kind: 'cut-off', subjects: { hub: lugLabel(circuit, hub), connected: lugLabels(circuit, connected) } };
}

/** What carries the signal on this lug's net: the output's tip, else the first lead of a coil. */
function signalOn({ circuit }: Facts, netsIn: NetIndex, lug: LugId, setting: Setting): string | undefined {
  const { folded, endingOn } = netsIn(setting);
  const here = netOf(folded, lug);
  if (here === folded.ground) return undefined;
  if (here === folded.tip && circuit.output !== undefined) return lugLabel(circuit, circuit.output.tip);
  const coil = endingOn(here).find(({ kind }) => kind === 'coil');
  if (coil === undefined) return undefined;
  return lugLabel(circuit, folded.of[coil.a] === here ? coil.a : coil.b);
}
