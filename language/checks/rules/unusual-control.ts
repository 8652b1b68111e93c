/** A pot wired in a way that is not usual for what it is for. */
import { lugById, partById } from '../../circuit/model.js';
import { effectAnywhere } from '../../electrics/index.js';
import {
  departureText,
  joinedTo,
  matchTracks,
  rolesOf,
  unitName,
  type Role,
  type Side,
  type TrackMatch,
} from '../../roles/index.js';
import type { Statement } from '../../source.js';
import { abridged } from '../../words.js';
import { placeOfLug, type Facts } from '../facts/index.js';
import { isJudgeable, trackLugs } from '../facts/shafts.js';
import { defineRule, reportsOf, type Rule } from '../rule.js';
import { backwardsControl } from './backwards-control.js';
import { constantCut } from './constant-cut.js';
import { groundLead } from './ground-lead.js';
import { idleControl } from './idle-control.js';
import { looseLead } from './loose-lead.js';
import { oddVolume } from './odd-volume.js';
import { silentAtRest } from './silent-at-rest.js';
import { unusualPart } from './unusual-part.js';

interface Claim extends Statement {
  /** The role, and each lug with what it leads to. */
  readonly kind: Role['word'];
  readonly subjects: { readonly control: string; readonly lugs: readonly string[] };
  readonly lugs: readonly { readonly lug: string; readonly is: Side; readonly usually: Side; readonly to: readonly string[] }[];
}

export const unusualControl = defineRule<Claim>({
  id: 'unusual-control',
  severity: 'warning',
  summary: 'a volume, tone or blend that is wired in a way that is not usual for it',
  describe: ({ kind, subjects: { control }, lugs }) =>
    `${control} is not wired as a ${kind} usually is: ${abridged(lugs.map((lug) => departureText(lug.lug, lug, kind === 'volume')))}`,
  check(facts) {
    const { circuit } = facts;
    if (!isJudgeable(facts)) return [];
    const odd = rolesOf(circuit).flatMap((role) => oddTracks(circuit, role).map((match) => ({ role, match })));
    if (odd.length === 0) return [];
    const reported = reportedIn(facts);
    return odd.flatMap(({ role, match: { departs, pattern } }) => {
      const control = unitName(circuit, role.unit);
      const [first] = departs;
      if (first === undefined || reported(role, departs)) return [];
      const lugs = departs.map(({ lug, ...sides }) => {
        return { lug: lugById(circuit, lug).label, ...sides, to: sides.is === 'controls' ? joinedTo(circuit, lug) : [] };
      });
      const labels = lugs.map(({ lug }) => lug);
      return [
        {
          claim: { kind: role.word, subjects: { control, lugs: labels }, lugs },
          why: `The usual wiring: ${pattern.says}`,
          range: placeOfLug(circuit, first.lug),
          subjects: [...labels, partById(circuit, role.unit.part).name],
        },
      ];
    });
  },
});

/** Tracks that are near a usual way, and not quite it. */
function oddTracks(circuit: Facts['circuit'], { unit, word, confidence }: Role): readonly TrackMatch[] {
  if (confidence === 'weak') return [];
  return matchTracks(circuit, unit, word).filter(
    ({ departs, sides }) => departs.length > 0 && departs.length < 3 && Object.values(sides).some((side) => side !== 'bare'),
  );
}

/** Asks whether another rule reports the pot, or something that is soldered to a lug that departs. */
function reportedIn(facts: Facts): (role: Role, departs: TrackMatch['departs']) => boolean {
  const { circuit, joined } = facts;
  return ({ unit }, departs) => {
    const classes = new Set(departs.flatMap(({ lug, is }) => (is === 'ground' ? [] : [joined.classOf(lug)])));
    const names = new Set([partById(circuit, unit.part).name, unitName(circuit, unit)]);
    for (const { id, label } of circuit.lugs) if (classes.has(joined.classOf(id))) names.add(label);
    const isReported = (rule: Rule): boolean =>
      reportsOf(facts, rule).some(({ subjects }) => subjects.some((subject) => names.has(subject)));
    if ([looseLead, groundLead, constantCut, unusualPart, silentAtRest, oddVolume].some(isReported)) return true;
    return turnsWrong(facts, names) && [backwardsControl, idleControl].some(isReported);
  };
}

/** True where one of these names is of a pot that does nothing or works backwards; for the rules about that every pot is turned. */
function turnsWrong(facts: Facts, names: ReadonlySet<string>): boolean {
  const { circuit } = facts;
  return circuit.shafts.some((shaft) => {
    const lugs = trackLugs(circuit, shaft).map((lug) => lugById(circuit, lug).label);
    const own = [shaft.name, partById(circuit, shaft.part).name, ...lugs];
    if (!own.some((name) => names.has(name))) return false;
    return facts.effect(shaft.id).role === 'nothing' || effectAnywhere(circuit, shaft.id).backwards;
  });
}
