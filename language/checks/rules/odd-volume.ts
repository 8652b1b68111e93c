/** A volume that cannot turn down as it should: off ground, fed at its wiper, or its wiper soldered to its own end. */
import { elementById, partById, type LugId, type Shaft, type ShaftId, type Track } from '../../circuit/model.js';
import { describeSettings, leading, lugLabel, placeOfPart, settingsOf, type Facts } from '../facts/index.js';
import { reachedWithout } from '../facts/signal/paths.js';
import { hearingsOf } from '../facts/signal/hearings.js';
import { isJudgeable, isWired } from '../facts/shafts.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';
import type { Steps } from '../../steps.js';
import type { Statement } from '../../source.js';
import { netOf, type Setting } from '../../electrics/index.js';

interface Claim extends Statement {
  readonly kind: 'off-ground' | 'wiper-on-end' | 'fed-at-wiper';
  readonly subjects: { readonly control: string; readonly wiper?: string; readonly end?: string; readonly free?: string };
}

export const oddVolume = defineRule<Claim>({
  id: 'odd-volume',
  severity: 'warning',
  summary: 'a volume that never falls silent, is fed at its wiper, or has its wiper joined to its end',
  describe({ kind, subjects: { control, wiper = '', end = '', free }, ...claim }) {
    switch (kind) {
      case 'off-ground':
        return offGroundText(
          control,
          free === undefined ? 'none of its lugs is on ground' : `nothing is soldered to ${free}`,
          claim,
        );
      case 'wiper-on-end':
        return `${control} has its wiper joined to the end of its own track: ${wiper} and ${end} are one net`;
      case 'fed-at-wiper':
        return `${control} is fed at its wiper: the pickups are on ${wiper}, the output is on ${end}`;
    }
  },
  *checkSteps(facts): Steps<readonly Report<Claim>[]> {
    const { circuit, signal } = facts;
    if (signal.neverHeard().size > 0 || !isJudgeable(facts)) return [];
    const hearings = hearingsOf(facts).map((hearing) => hearing.facts);
    const found: Report<Claim>[] = [];
    for (const shaft of circuit.shafts) {
      if (!isWired(facts, shaft)) continue;
      yield;
      const tracks = shaft.tracks.flatMap((id) => {
        const element = elementById(circuit, id);
        return element.kind === 'track' ? [element] : [];
      });
      const odd = tracks
        .map((track) => oddityAnywhere(hearings, shaft, track, tracks.length === 1))
        .find((one) => one !== undefined);
      if (odd === undefined) continue;
      found.push({
        claim: { ...odd.claim, subjects: { control: shaft.name, ...odd.claim.subjects } },
        why: odd.why,
        range: placeOfPart(circuit, shaft.part),
        subjects: [partById(circuit, shaft.part).name, ...odd.lugs.map((lug) => lugLabel(circuit, lug))],
      });
    }
    return found;
  },
});

interface Oddity {
  readonly claim: Pick<Claim, 'kind'> & { readonly subjects: Omit<Claim['subjects'], 'control'> };
  readonly why: string;
  readonly lugs: readonly LugId[];
}

/** At the first output that has it, where none of the others speaks against it. */
function oddityAnywhere(hearings: readonly Facts[], shaft: Shaft, track: Track, isOnly: boolean): Oddity | undefined {
  for (const facts of hearings) {
    const odd = isJudgeable(facts) ? oddityOf(facts, shaft, track, isOnly) : undefined;
    const others = hearings.filter((other) => other !== facts);
    if (odd !== undefined && !others.some((other) => isDenied(other, shaft, track, odd.claim.kind))) return odd;
  }
  return undefined;
}

/** What another output says against it: there the pot turns the sound off, brings in what it takes out here, or is fed as it should be. */
function isDenied(facts: Facts, { id }: Shaft, track: Track, kind: Claim['kind']): boolean {
  const { role, backwards } = facts.effect(id);
  if (role === 'nothing' || role === 'unwired') return false;
  const ends = [track.a, track.leavesTo ?? track.b];
  switch (kind) {
    case 'off-ground':
      return backwards || role === 'volume' || role === 'mixed' || [...ends, track.wiper].some((lug) => isEverGround(facts, lug));
    case 'fed-at-wiper':
      return !ends.some((far) => isFedAtWiper(facts, track, far));
    case 'wiper-on-end':
      return false;
  }
}

function isEverGround(facts: Facts, lug: LugId): boolean {
  return facts.groups().some(({ folded }) => folded.of[lug] === folded.ground);
}

/** Joints are asked first: what a pot does has to be solved. */
function oddityOf(facts: Facts, { id }: Shaft, track: Track, isOnly: boolean): Oddity | undefined {
  const { circuit, joined } = facts;
  const end = track.leavesTo ?? track.b;
  const lugs = [track.a, track.wiper, end];
  const isGround = (lug: LugId): boolean => facts.groups().every(({ folded }) => folded.of[lug] === folded.ground);
  if (!lugs.some((lug) => isEverGround(facts, lug))) return ungrounded(facts, id, track, isOnly);
  const cold = [track.a, end].find(isGround);
  if (cold === undefined) return undefined;
  const far = cold === track.a ? end : track.a;
  const [wiper, output] = [lugLabel(circuit, track.wiper), lugLabel(circuit, far)];
  const isVolume = (): boolean => facts.effect(id).role === 'volume' && !facts.effect(id).backwards;
  if (joined.classOf(track.wiper) === joined.classOf(far)) {
    if (!isVolume()) return undefined;
    return {
      claim: { kind: 'wiper-on-end', subjects: { wiper, end: output } },
      why: 'The whole track then lies across the signal, and only the last few degrees of its turn do anything: the pickups are loaded instead of turned down. A volume takes its input on 3, has its output on 2 and ground on 1.',
      lugs: [track.wiper, far],
    };
  }
  if (!isOnly || !isFedAtWiper(facts, track, far) || !isVolume() || !isLoneVolume(facts, id)) return undefined;
  return {
    claim: { kind: 'fed-at-wiper', subjects: { wiper, end: output } },
    why: 'Input and output are exchanged. Turning it down gradually shorts the pickups and takes their treble. That is wanted only where several volumes are mixed, so that one does not silence the other. A volume takes its input on 3 and has its output on 2.',
    lugs: [track.wiper, far],
  };
}

/** A track without a lug on ground that the signal has to pass through. */
function ungrounded(facts: Facts, id: ShaftId, track: Track, isOnly: boolean): Oddity | undefined {
  const { passing, isAll } = onlyPathIn(facts, track);
  // A series resistance in some positions is a preset volume where one end of its track was left free, and else may be meant.
  if (passing.length === 0 || (!isAll && !(isOnly && isLeftFree(facts, track)))) return undefined;
  const { role, backwards } = facts.effect(id);
  // A small resistor under it takes it to silence all the same.
  if (backwards || role === 'volume' || role === 'nothing' || role === 'unwired') return undefined;
  if (!isAll && (role === 'blend' || role === 'spread')) return undefined;
  return offGround(
    facts,
    [track.a, track.wiper, track.leavesTo ?? track.b],
    isAll ? triedIn(facts) : settingsOf(facts.circuit, facts.settings(), passing),
  );
}

/** `At preset 2, preset-volume never turns the sound off: …`. */
function offGroundText(control: string, cause: string, claim: Pick<Statement, 'settings' | 'moreSettings' | 'tried'>): string {
  if (claim.settings !== undefined) return leading(describeSettings(claim), `${control} never turns the sound off: ${cause}`);
  const turns = claim.tried === undefined ? 'never turns the sound off' : `turns the sound off ${everywhere('no', claim)}`;
  return `${control} ${turns}: ${cause}`;
}

/** One end of the track is soldered to nothing, the other and the wiper are. */
function isLeftFree({ joined }: Facts, { a, b, wiper, leavesTo }: Track): boolean {
  return joined.isWired(wiper) && joined.isWired(a) !== joined.isWired(leavesTo ?? b);
}

function offGround({ circuit, joined }: Facts, lugs: readonly LugId[], settings: Pick<Statement, 'settings' | 'tried'>): Oddity {
  const free = lugs.filter((lug) => !joined.isWired(lug));
  const [one, ...more] = free;
  const isOne = one !== undefined && more.length === 0;
  return {
    claim: { kind: 'off-ground', subjects: isOne ? { free: lugLabel(circuit, one) } : {}, ...settings },
    why: 'A track that is only in series with the signal removes a little level and a lot of treble, but at 0 the guitar still plays. Lug 1 of a volume belongs on ground.',
    lugs: isOne ? [one] : lugs.slice(0, 1),
  };
}

/** The settings in which something is heard, and nothing but through this track; all of those that sound, or some. No part bridges it there. */
function onlyPathIn(facts: Facts, track: Track): { readonly passing: readonly Setting[]; readonly isAll: boolean } {
  const { circuit, signal } = facts;
  const sounding = facts.groups().filter(({ setting }) => !signal.sound(setting).silent);
  const passing = sounding.filter(({ setting, folded }) => {
    const reached = reachedWithout(circuit, folded, track.id);
    return signal.sound(setting).heard.every(({ coil }) => {
      const { a, b } = elementById(circuit, coil);
      return !reached(netOf(folded, a)) && !reached(netOf(folded, b));
    });
  });
  return { passing: passing.flatMap(({ settings }) => settings), isAll: passing.length === sounding.length };
}

/** No other pot turns anything down: nothing is mixed behind this one. */
function isLoneVolume(facts: Facts, shaft: ShaftId): boolean {
  return facts
    .effects()
    .every((other) => other.shaft === shaft || ['tone', 'nothing', 'unwired', 'bass-cut'].includes(other.role));
}

function isFedAtWiper(facts: Facts, track: Track, far: LugId): boolean {
  const { circuit, signal } = facts;
  return facts.groups().every(({ setting, folded }) => {
    const heard = signal.sound(setting).heard;
    if (heard.length === 0) return true;
    const reached = reachedWithout(circuit, folded, track.id);
    const onWiper = netOf(folded, track.wiper);
    return (
      reached(netOf(folded, far)) &&
      !reached(onWiper) &&
      heard.every(({ coil }) => !reached(netOf(folded, elementById(circuit, coil).a)))
    );
  });
}
