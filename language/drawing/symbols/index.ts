/** Outlines: a part's shape with its lugs where they are, in every orientation. */
import { firstOf } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import type { PartKind, SwitchForm } from '../diagram/part-kind.js';
import { amplifierSymbol, boxSymbol, stripSymbol } from './box.js';
import { connectorSymbol } from './connector.js';
import { housingSymbol } from './housing.js';
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
import { transistorSymbol } from './transistor.js';
import { trimmerSymbol } from './trimmer.js';

/** Every orientation of the part, the usual one first: parts turn by quarters and are never mirrored. Its size and its lugs' places hang on the part alone, never on its wires. */
export function symbolsOf(part: DiagramPart): readonly Symbol[] {
  const { turns, make } = lookOf(part);
  return turns.map((turn) => make(part, turn));
}

/** One orientation by its quarter turns, the usual one where the part does not turn so. */
export function symbolOf(part: DiagramPart, turn: number): Symbol {
  const { turns, make } = lookOf(part);
  return make(part, turns.includes(turn) ? turn : firstOf(turns));
}

interface Look {
  /** Quarter turns, the usual one first. */
  readonly turns: readonly number[];
  readonly make: (part: DiagramPart, turn: number) => Symbol;
}

function lookOf(part: DiagramPart): Look {
  return looks[fitsOutline(part) ? part.kind : 'box'];
}

const turning = (make: Look['make']): Look => ({ turns: [0, 2, 1, 3], make });
const alone = (make: Look['make']): Look => ({ turns: [0], make });

const looks: Readonly<Record<PartKind, Look>> = {
  pickup: turning(pickupSymbol),
  humbucker: turning(pickupSymbol),
  piezo: turning(pickupSymbol),
  pot: turning(potSymbol),
  'pot-dual': turning(dualPotSymbol),
  'pot-switch': turning(switchPotSymbol),
  trimmer: turning(trimmerSymbol),
  switch: turning((part, turn) => switches[part.form ?? 'lever'](part, turn)),
  rotary: alone(rotarySymbol),
  jack: turning(jackSymbol),
  capacitor: turning(twoLeadSymbol),
  electrolytic: turning(twoLeadSymbol),
  resistor: turning(twoLeadSymbol),
  inductor: turning(twoLeadSymbol),
  diode: turning(twoLeadSymbol),
  led: turning(twoLeadSymbol),
  battery: turning(batterySymbol),
  network: { turns: [0, 2], make: (part, turn) => networkSymbol(part, turn === 2 ? 2 : 0) },
  amplifier: alone(amplifierSymbol),
  transistor: turning(transistorSymbol),
  housing: { turns: [0, 2], make: housingSymbol },
  bridge: turning(bridgeSymbol),
  star: alone(starSymbol),
  junction: alone(pointSymbol),
  terminal: alone(pointSymbol),
  strip: turning(stripSymbol),
  connector: turning(connectorSymbol),
  mark: turning(markSymbol),
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
  if (!['pot', 'pot-dual', 'pot-switch', 'trimmer', 'amplifier', 'rotary'].includes(part.kind)) return true;
  return part.lugs.every((lug) => lugNameWidth(lug.name) <= 34);
}
