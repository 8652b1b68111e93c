/** Pieces of heat-shrink: where bare metal lies near other metal. */
import type { Build } from '../build.js';
import { leadOf } from '../../circuit/model.js';
import { spliceLength, type Run } from '../places/runs.js';
import { outsideDiameter } from '../places/wire-sizes.js';
import type { Item } from './work.js';

/** One piece, to slide on before the second end is soldered. */
export interface SleevePiece {
  readonly on: string;
  readonly why: string;
  /** Metres; the tube's inner diameter before it shrinks goes over what it must pass. */
  readonly length: number;
  readonly over: number;
}

/**
 * The pieces of one item: a shielded wire takes one at each end, so that no strand of its screen touches; a splice in mid air takes one; each lead
 * of a small part that is soldered between two parts, or to a case, takes one.
 */
export function piecesOf(build: Build, item: Item): readonly SleevePiece[] {
  const { sleeve, shielded, gauge } = build.settings;
  const { run } = item;
  if (run !== undefined && run.joint.shielded && !run.ownLead) {
    return ['first end', 'second end'].map((end) => ({
      on: `${run.mark}, ${end}`,
      why: 'end of the screen',
      length: sleeve,
      over: shielded,
    }));
  }
  if (item.kind === 'part') {
    const { name } = build.part(item.part);
    return item.ends.map((end) => ({
      on: `${name} at ${build.label(end.lug)}`,
      why: 'bare lead',
      length: sleeve,
      over: 0.001,
    }));
  }
  if (run === undefined) return [];
  const splices = item.ends.filter((end) => build.partAt(end.lug).ancestry.includes('junction'));
  const first = splices.filter((end) => firstAt(build, end.spot) === item.id);
  return first.map((end) => ({
    on: `splice ${build.label(end.lug)}`,
    why: 'free splice',
    length: 2 * sleeve,
    over: 2 * outsideDiameter(run.joint.gauge ?? gauge),
  }));
}

/** The pieces over the splice of an own lead that is too short: one over its core, where it is shielded another over all. */
export function splicePieces(build: Build, run: Run): readonly SleevePiece[] {
  if (spliceLength(build, run) === undefined) return [];
  const { sleeve, gauge } = build.settings;
  const piece = (on: string, length: number, over: number): SleevePiece => ({ on, why: 'spliced lead', length, over });
  const core = piece(`splice of ${run.mark}`, 2 * sleeve, 2 * outsideDiameter(run.joint.gauge ?? gauge));
  return leadOf(build, run.joint)?.shielded === true
    ? [core, piece(`screen at the splice of ${run.mark}`, 3 * sleeve, 2 * build.settings.shielded)]
    : [core];
}

/** Every piece of an instrument. */
export function sleevePieces(build: Build): readonly SleevePiece[] {
  return build.work.items.flatMap((item) => [
    ...piecesOf(build, item),
    ...(item.run === undefined ? [] : splicePieces(build, item.run)),
  ]);
}

/** The first item of a splice bears its sleeve. */
function firstAt(build: Build, spot: number): number | undefined {
  return build.work.items.find((item) => item.ends.some((end) => end.spot === spot))?.id;
}
