/** What the workshop finds: wires that do not reach, channels that are too full, bodies without room, bushings that are too short, holes over an edge, foils turned to the signal. */
import { figure } from '../claim.js';
import {
  fullChannel,
  misplacedHole,
  outerFoil,
  shortBushing,
  shortWire,
  tightFit,
  toFinding,
  type FullChannelClaim,
  type Report,
  type ShortWireClaim,
  millimetres,
} from '../checks/index.js';
import { leadEnd } from '../circuit/model.js';
import type { Finding } from '../source.js';
import type { Build } from './build.js';
import { channelFills } from './places/channel-fill.js';
import { tightFits } from './fit.js';
import { misplacedHoles } from './places/drilling.js';
import { shortBushings, turnedFoils } from './places/parts-fit.js';
import { roundedUp, spliceLength } from './places/runs.js';
import { listed } from '../words.js';

/** Findings in no order; nothing in a library of types, nothing where the text measures nothing. */
export function benchFindings(build: Build): readonly Finding[] {
  if (build.circuit.isLibrary) return [];
  const foils = turnedFoils(build).map((report) => toFinding(outerFoil, report));
  if (build.cavities.length === 0) return foils;
  return [
    ...shortWires(build).map((report) => toFinding(shortWire, report)),
    ...fullChannels(build).map((report) => toFinding(fullChannel, report)),
    ...tightFits(build).map((report) => toFinding(tightFit, report)),
    ...misplacedHoles(build).map((report) => toFinding(misplacedHole, report)),
    ...shortBushings(build).map((report) => toFinding(shortBushing, report)),
    ...foils,
  ];
}

function shortWires(build: Build): Report<ShortWireClaim>[] {
  const { step } = build.settings;
  return build.runs.flatMap((run) => {
    const { joint, length, least, needed, reach, route, declared } = run;
    if (!declared || length === undefined || least === undefined || reach === undefined || needed === undefined) return [];
    if (!route.known || length >= reach) return [];
    const isMeasured = length < least;
    const pieces = route.pieces
      .filter(({ assumed, metres }) => !(isMeasured && assumed) && metres > 0)
      .map((piece) => `${millimetres(piece.metres)} ${piece.what}${piece.assumed ? ' (assumed)' : ''}`);
    const splice = spliceLength(build, run);
    const cure = `With slack it takes ${millimetres(roundedUp(needed, step))}.${splice === undefined ? '' : ` Splice ${millimetres(splice)} of wire to it, or connect it to a nearer lug.`}`;
    const end = run.ownLead ? leadEnd(build, joint) : undefined;
    return [
      {
        claim: {
          kind: run.ownLead ? 'lead' : 'wire',
          subjects: { ends: [build.label(joint.a), build.label(joint.b)] },
          figures: {
            length: figure(length, 'metre'),
            least: figure(isMeasured ? least : reach, 'metre'),
            ...(isMeasured ? {} : { assumed: figure(reach - least, 'metre') }),
          },
        },
        why: `${listed(pieces)}. ${cure}`,
        range: joint.range,
        subjects: [...new Set([build.label(joint.a), build.label(joint.b), ...(end === undefined ? [] : [build.label(end)])])],
      },
    ];
  });
}

function fullChannels(build: Build): Report<FullChannelClaim>[] {
  return channelFills(build).flatMap(({ channel, passing, share, limit, widest, plugs, isFull }) => {
    if (!isFull || channel.bore === undefined) return [];
    const marks = passing.flatMap(({ runs }) => runs.map(({ joint }) => `${build.label(joint.a)} to ${build.label(joint.b)}`));
    const area = passing.reduce((sum, { diameter }) => sum + diameter ** 2, 0);
    const common = { bore: figure(channel.bore, 'metre'), wires: figure(passing.length, 'count') };
    const wanted = Math.max(widest, plugs, passing.length > 1 ? Math.sqrt(area / limit) : 0);
    return [
      {
        claim: {
          subjects: { from: channel.from, to: channel.to },
          ...(plugs > channel.bore
            ? { kind: 'plug', figures: { ...common, width: figure(plugs, 'metre') } }
            : widest > channel.bore
              ? { kind: 'thickest', figures: { ...common, width: figure(widest, 'metre') } }
              : {
                  kind: 'filled',
                  figures: {
                    ...common,
                    filled: figure(Math.round(share * 100), 'percent'),
                    limit: figure(Math.round(limit * 100), 'percent'),
                  },
                }),
        },
        why: `Through it: ${listed(marks)}. A bore of ${millimetres(roundedUp(wanted, 0.0005))} would be enough.`,
        range: channel.range,
        subjects: [channel.from, channel.to],
      },
    ];
  });
}
