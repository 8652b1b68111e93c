/** Outlines: a part's shape with its lugs where they are, in every orientation. */
import type { DiagramPart } from '../diagram/diagram.js';
import type { PartKind } from '../diagram/part-kind.js';
import { amplifierSymbol, boxSymbol, jackSymbol, stripSymbol } from './box.js';
import { bridgeSymbol, markSymbol, pointSymbol, starSymbol } from './metal.js';
import { networkSymbol } from './network.js';
import { twoLeadSymbol } from './passive.js';
import { pickupSymbols } from './pickup.js';
import { dualPotSymbol, potSymbol, switchPotSymbol } from './pot.js';
import { rotarySymbol } from './rotary.js';
import { switchSymbol } from './switch.js';
import { lugNameWidth, type Symbol } from './symbol.js';

/** Every orientation of the part, the usual one first: parts turn but are never mirrored; free leads come in any order. */
export function symbolsOf(part: DiagramPart): readonly Symbol[] {
  return makers[fitsOutline(part) ? part.kind : 'box'](part);
}

const upright = [0, 2];
const anyTurn = [0, 2, 1, 3];
const twoLeads = (part: DiagramPart): Symbol[] => anyTurn.map((turn) => twoLeadSymbol(part, turn));

const makers: Readonly<Record<PartKind, (part: DiagramPart) => readonly Symbol[]>> = {
  pickup: pickupSymbols,
  humbucker: pickupSymbols,
  pot: (part) => upright.map((turn) => potSymbol(part, turn)),
  'pot-dual': (part) => upright.map((turn) => dualPotSymbol(part, turn)),
  'pot-switch': (part) => upright.map((turn) => switchPotSymbol(part, turn)),
  switch: (part) => anyTurn.map((turn) => switchSymbol(part, turn)),
  rotary: (part) => [rotarySymbol(part)],
  jack: (part) => [part.lugs, [...part.lugs].reverse()].map((lugs) => jackSymbol(part, lugs)),
  capacitor: twoLeads,
  electrolytic: twoLeads,
  resistor: twoLeads,
  inductor: twoLeads,
  battery: twoLeads,
  network: (part) => ([0, 2] as const).map((turn) => networkSymbol(part, turn)),
  amplifier: (part) => [amplifierSymbol(part)],
  bridge: (part) => upright.map((turn) => bridgeSymbol(part, turn)),
  star: (part) => [starSymbol(part)],
  junction: (part) => [pointSymbol(part)],
  terminal: (part) => [pointSymbol(part)],
  strip: (part) => [stripSymbol(part)],
  mark: (part) => [markSymbol(part)],
  box: (part) => [boxSymbol(part)],
};

/** Lugs that stand in a row on the outline have room for short names only. */
function fitsOutline(part: DiagramPart): boolean {
  if (!['pot', 'pot-dual', 'pot-switch', 'amplifier', 'rotary'].includes(part.kind)) return true;
  return part.lugs.every((lug) => lugNameWidth(lug.name) <= 34);
}
