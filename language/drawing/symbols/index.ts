/** Outlines: a part's shape with its lugs where they are, in every orientation. */
import type { DiagramPart } from '../diagram/diagram.js';
import type { PartKind, SwitchForm } from '../diagram/part-kind.js';
import { amplifierSymbol, boxSymbol, stripSymbol } from './box.js';
import { isJackLike, jackSymbol } from './jack.js';
import { leverSymbol } from './lever.js';
import { bridgeSymbol, markSymbol, pointSymbol, starSymbol } from './metal.js';
import { miniSymbol } from './mini.js';
import { networkSymbol } from './network.js';
import { batterySymbol, twoLeadSymbol } from './passive.js';
import { pickupSymbol } from './pickup.js';
import { dualPotSymbol, potSymbol, switchPotSymbol } from './pot.js';
import { rotarySymbol } from './rotary.js';
import { slideSymbol, toggleSymbol } from './switch.js';
import { lugNameWidth, type Symbol } from './symbol.js';

/** Every orientation of the part, the usual one first: parts turn by quarters and are never mirrored. Its size and its lugs' places hang on the part alone, never on its wires. */
export function symbolsOf(part: DiagramPart): readonly Symbol[] {
  return makers[fitsOutline(part) ? part.kind : 'box'](part);
}

const turns = (make: (part: DiagramPart, turn: number) => Symbol) => (part: DiagramPart) =>
  [0, 2, 1, 3].map((turn) => make(part, turn));
const alone = (make: (part: DiagramPart) => Symbol) => (part: DiagramPart) => [make(part)];
const twoLeads = turns(twoLeadSymbol);

const makers: Readonly<Record<PartKind, (part: DiagramPart) => readonly Symbol[]>> = {
  pickup: turns(pickupSymbol),
  humbucker: turns(pickupSymbol),
  pot: turns(potSymbol),
  'pot-dual': turns(dualPotSymbol),
  'pot-switch': turns(switchPotSymbol),
  switch: turns((part, turn) => switches[part.form ?? 'lever'](part, turn)),
  rotary: alone(rotarySymbol),
  jack: turns(jackSymbol),
  capacitor: twoLeads,
  electrolytic: twoLeads,
  resistor: twoLeads,
  inductor: twoLeads,
  battery: turns(batterySymbol),
  network: (part) => ([0, 2] as const).map((turn) => networkSymbol(part, turn)),
  amplifier: alone(amplifierSymbol),
  bridge: turns(bridgeSymbol),
  star: alone(starSymbol),
  junction: alone(pointSymbol),
  terminal: alone(pointSymbol),
  strip: turns(stripSymbol),
  mark: (part) => [0, 2, 1, 3].map((turn) => markSymbol(part, turn)),
  box: alone(boxSymbol),
};

const switches: Readonly<Record<SwitchForm, (part: DiagramPart, turn: number) => Symbol>> = {
  lever: leverSymbol,
  toggle: toggleSymbol,
  slide: slideSymbol,
  mini: miniSymbol,
};

/** Lugs that stand in a row on the outline have room for short names only. */
function fitsOutline(part: DiagramPart): boolean {
  if (part.kind === 'jack') return isJackLike(part);
  if (!['pot', 'pot-dual', 'pot-switch', 'amplifier', 'rotary'].includes(part.kind)) return true;
  return part.lugs.every((lug) => lugNameWidth(lug.name) <= 34);
}
