/** Outlines: a part's shape with its lugs where they are, in every way it may lie. */
import type { DiagramPart } from '../diagram/diagram.js';
import { amplifierSymbol, boxSymbol, jackSymbol, stripSymbol } from './box.js';
import { bridgeSymbol, markSymbol, pointSymbol, starSymbol } from './metal.js';
import { networkSymbol } from './network.js';
import { twoLeadSymbol } from './passive.js';
import { pickupSymbols } from './pickup.js';
import { dualPotSymbol, potSymbol, switchPotSymbol } from './pot.js';
import { rotarySymbol } from './rotary.js';
import { switchSymbol } from './switch.js';
import { lugNameWidth, type Symbol } from './symbol.js';

/** Every way in which the part may lie, the usual one first: parts turn but are never mirrored; free leads come in any order. */
export function symbolsOf(part: DiagramPart): readonly Symbol[] {
  const made = known.get(part) ?? makeSymbols(part);
  known.set(part, made);
  return made;
}

const known = new WeakMap<DiagramPart, readonly Symbol[]>();

function makeSymbols(part: DiagramPart): Symbol[] {
  switch (fitsOutline(part) ? part.kind : 'box') {
    case 'pickup':
    case 'humbucker':
      return pickupSymbols(part);
    case 'pot':
      return [0, 2].map((turn) => potSymbol(part, turn));
    case 'pot-dual':
      return [0, 2].map((turn) => dualPotSymbol(part, turn));
    case 'pot-switch':
      return [0, 2].map((turn) => switchPotSymbol(part, turn));
    case 'switch':
      return [0, 2, 1, 3].map((turn) => switchSymbol(part, turn));
    case 'rotary':
      return [rotarySymbol(part)];
    case 'jack':
      return [part.lugs, [...part.lugs].reverse()].map((lugs) => jackSymbol(part, lugs));
    case 'capacitor':
    case 'electrolytic':
    case 'resistor':
    case 'inductor':
    case 'battery':
      return [0, 2, 1, 3].map((turn) => twoLeadSymbol(part, turn));
    case 'network':
      return ([0, 2] as const).map((turn) => networkSymbol(part, turn));
    case 'amplifier':
      return [amplifierSymbol(part)];
    case 'bridge':
      return [0, 2].map((turn) => bridgeSymbol(part, turn));
    case 'star':
      return [starSymbol(part)];
    case 'junction':
    case 'terminal':
      return [pointSymbol(part)];
    case 'strip':
      return [stripSymbol(part)];
    case 'mark':
      return [markSymbol(part)];
    case 'box':
      return [boxSymbol(part)];
  }
}

/** Lugs that stand in a row on the outline have room for short names only. */
function fitsOutline(part: DiagramPart): boolean {
  if (!['pot', 'pot-dual', 'pot-switch', 'amplifier', 'rotary'].includes(part.kind)) return true;
  return part.lugs.every((lug) => lugNameWidth(lug.name) <= 34);
}
