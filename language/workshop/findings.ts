/** What the bench finds: wires that do not reach, channels that are too full, bodies without room, bushings that are too short, foils turned to the signal. */
import type { Circuit } from '../circuit/model.js';
import { fullChannel, outerFoil, shortBushing, shortWire, tightFit, toFinding, type Report } from '../checks/index.js';
import type { Finding } from '../source.js';
import { buildSettings } from './build-settings.js';
import { channelFills } from './places/channel-fill.js';
import { tightFits } from './fit.js';
import { shortBushings, turnedFoils } from './places/parts-fit.js';
import { leadEnd } from './places/places.js';
import { roundedUp, runsOf } from './places/runs.js';
import { label, listed, millimetres } from './say.js';

/** Findings in no order; nothing in a library of types, nothing where the text measures nothing. */
export function benchFindings(circuit: Circuit): readonly Finding[] {
  if (circuit.isLibrary) return [];
  const foils = turnedFoils(circuit).map((told) => toFinding(outerFoil, outerFoil.severity, told));
  if (circuit.cavities.length === 0) return foils;
  return [
    ...shortWires(circuit).map((told) => toFinding(shortWire, shortWire.severity, told)),
    ...fullChannels(circuit).map((told) => toFinding(fullChannel, fullChannel.severity, told)),
    ...tightFits(circuit).map((told) => toFinding(tightFit, tightFit.severity, told)),
    ...shortBushings(circuit).map((told) => toFinding(shortBushing, shortBushing.severity, told)),
    ...foils,
  ];
}

function shortWires(circuit: Circuit): Report[] {
  const { step } = buildSettings(circuit);
  return runsOf(circuit).flatMap((run) => {
    const { joint, length, least, needed, way, declared } = run;
    if (!declared || length === undefined || least === undefined || needed === undefined || !way.known || length >= least)
      return [];
    const ends = `${label(circuit, joint.a)} to ${label(circuit, joint.b)}`;
    const what = run.ownLead ? `the lead ${ends}` : `the wire ${ends}`;
    const pieces = way.pieces
      .filter(({ assumed, metres }) => !assumed && metres > 0)
      .map((piece) => `${millimetres(piece.metres)} ${piece.what}`);
    const mend = run.ownLead
      ? `With slack it takes ${millimetres(roundedUp(needed, step))}: splice it, or wire it to a nearer lug.`
      : `With slack it takes ${millimetres(roundedUp(needed, step))}.`;
    const end = run.ownLead ? leadEnd(circuit, joint) : undefined;
    return [
      {
        message: `${what} has ${millimetres(length)}; its measured way alone takes ${millimetres(least)} with the strips`,
        why: `${listed(pieces)}. ${mend}`,
        range: joint.range,
        subjects: [
          ...new Set([label(circuit, joint.a), label(circuit, joint.b), ...(end === undefined ? [] : [label(circuit, end)])]),
        ],
      },
    ];
  });
}

function fullChannels(circuit: Circuit): Report[] {
  return channelFills(circuit).flatMap(({ channel, passing, share, limit, widest, plugs, isFull }) => {
    if (!isFull || channel.bore === undefined) return [];
    const bore = `a bore of ${millimetres(channel.bore)}`;
    const marks = passing.flatMap(({ runs }) =>
      runs.map(({ joint }) => `${label(circuit, joint.a)} to ${label(circuit, joint.b)}`),
    );
    const fault =
      plugs > channel.bore
        ? `the plug on the cable takes ${millimetres(plugs)} of ${bore}`
        : widest > channel.bore
          ? `the two thickest of its ${passing.length} wires are ${millimetres(widest)} side by side in ${bore}`
          : `${passing.length} wires fill ${Math.round(share * 100)} % of ${bore}; the limit is ${Math.round(limit * 100)} %`;
    const area = passing.reduce((sum, { diameter }) => sum + diameter ** 2, 0);
    const wanted = Math.max(widest, plugs, passing.length > 1 ? Math.sqrt(area / limit) : 0);
    return [
      {
        message: `channel ${channel.from} to ${channel.to}: ${fault}`,
        why: `Through it: ${listed(marks)}. A bore of ${millimetres(roundedUp(wanted, 0.0005))} would do.`,
        range: channel.range,
        subjects: [channel.from, channel.to],
      },
    ];
  });
}
