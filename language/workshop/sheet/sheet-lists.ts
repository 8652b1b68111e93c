/** The sheet's lists: parts, wires, heat-shrink, leads, channels. */
import { listed } from '../../words.js';
import { millimetres } from '../../checks/index.js';
import type { Build } from '../build.js';
import { buyList, countSaid } from '../lists/buy-list.js';
import { channelFills } from '../places/channel-fill.js';
import { cutList, ownLeads, sleeveList } from '../lists/lists.js';
import { instrumentsOn } from './batch.js';
import type { Block } from './sheet-model.js';

/** Parts, wire and heat-shrink to lay out, or to order for the batch. */
export function partsBlocks(build: Build): Block[] {
  const { spares } = build.settings;
  const list = buyList(build);
  const rows = list.map(({ quantity = 0, unit, item, values, usedAs, note }) => [
    quantity === 0 ? '' : unit === 'piece' ? String(quantity) : `${quantity} m`,
    item,
    [values, note].filter((text) => text !== '').join('; '),
    usedAs.join(', '),
  ]);
  const more = spares > 0 ? [`${spares} spare of each part`] : [];
  const text = [countSaid(build), ...more].filter((word) => word !== '').join(', ');
  const said = [
    ...(text === '' ? [] : [`Quantities are ${text}.`]),
    ...(list.every(({ quantity }) => quantity !== undefined)
      ? []
      : ['Where none is given, count or measure, and write it down.']),
  ];
  return [
    ...(said.length === 0 ? [] : [{ kind: 'text' as const, text: said.join(' ') }]),
    { kind: 'table', heads: ['qty', 'part', 'values', 'used as'], rows, blanks: ['here'] },
  ];
}

export function cutBlocks(build: Build, number?: number): Block[] {
  const groups = cutList(build);
  if (groups.length === 0) return [];
  const isBatch = instrumentsOn(build, number).length > 0;
  const rows = groups.flatMap(({ kind, cuts }) =>
    cuts.map((cut) => [
      cut.mark,
      ...(isBatch ? [String(build.count)] : []),
      kind,
      cut.length === undefined ? '' : `${cut.assumed ? '≈ ' : ''}${millimetres(cut.length)}`,
      cut.strip === 0 ? 'bare' : millimetres(cut.strip),
      cut.over.length === 0 ? `${cut.from} to ${cut.to}` : `one piece from ${cut.from} over ${listed(cut.over)} to ${cut.to}`,
    ]),
  );
  const { slack, lift, strip, step } = build.settings;
  const all = groups.flatMap(({ cuts }) => cuts);
  const more = `${millimetres(slack)} of slack, ${millimetres(lift)} for each plate that it leaves, and ${millimetres(strip)} for each stripped end`;
  const isSaid = all.some(({ length }) => length !== undefined);
  const notes = [
    ...(isSaid ? [`Each length is the route, ${more}, rounded up to ${millimetres(step)}.`] : []),
    ...(all.some(({ length }) => length === undefined)
      ? [
          `No length: lay a piece of string from lug to lug where the wire will lie, add ${isSaid ? 'the same' : more}, and write the sum in.`,
        ]
      : []),
    ...(all.some(({ length, assumed }) => assumed && length !== undefined)
      ? ['≈ Estimated, because the text does not give every dimension of the route: measure it with string before you cut.']
      : []),
    ...(all.some(({ runs }) => runs.some(({ joint }) => joint.shielded))
      ? ['On a shielded wire, remove another 15 mm of jacket at each end.']
      : []),
  ];
  const heads = ['no.', ...(isBatch ? ['pieces'] : []), 'wire', 'cut to', 'strip', 'from, to'];
  return [
    { kind: 'table', heads, rows, blanks: ['cut'] },
    { kind: 'list', items: notes },
  ];
}

export function sleeveBlocks(build: Build): Block[] {
  const rows = sleeveList(build).map(({ pieces, length, over, why, on }) => [
    String(pieces),
    millimetres(length),
    `fits over ${millimetres(over)}`,
    why,
    on.join('; '),
  ]);
  return rows.length === 0 ? [] : [{ kind: 'table', heads: ['pieces', 'length', 'tube', 'for', 'where'], rows }];
}

export function leadBlocks(build: Build): Block[] {
  const leads = ownLeads(build);
  const rows = leads.flatMap(({ mark, kind, from, to, has, needs, verdict }) =>
    needs === undefined
      ? []
      : [[mark, kind, `${from} to ${to}`, has === undefined ? '?' : millimetres(has), millimetres(needs), verdict]],
  );
  // A table of question marks would take a page and say nothing.
  const unknown = leads.flatMap(({ mark, kind, from, to, has, needs }) =>
    needs === undefined
      ? [[mark, kind, from, 'to', to, has === undefined ? '' : millimetres(has)].filter(Boolean).join(' ')]
      : [],
  );
  return [
    ...(rows.length === 0
      ? []
      : [{ kind: 'table', heads: ['no.', 'lead', 'from, to', 'has', 'route needs', ''], rows } as const]),
    ...(unknown.length === 0
      ? []
      : [
          {
            kind: 'list',
            items: [`Lay each along its way, no route is given: ${unknown.join(' · ')}.`],
          } as const,
        ]),
  ];
}

export function roomBlocks(build: Build): Block[] {
  const fills = channelFills(build);
  if (fills.length === 0) return [];
  const rows = fills.map(({ channel, passing, share, limit, plugs, isFull }) => [
    `${channel.from} to ${channel.to}`,
    channel.bore === undefined ? '?' : millimetres(channel.bore),
    passing.flatMap(({ runs }) => runs.map(({ mark }) => mark)).join(', ') || 'none',
    channel.bore === undefined
      ? '?'
      : `${Math.round(share * 100)} % of ${Math.round(limit * 100)} % allowed${plugs > 0 ? `; plug ${millimetres(plugs)}` : ''}`,
    isFull ? 'too full' : 'passes',
  ]);
  return [{ kind: 'table', heads: ['channel', 'bore', 'through it', 'filled', ''], rows }];
}
