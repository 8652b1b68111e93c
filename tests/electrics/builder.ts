/** Makes circuits by hand, part by part, so that the electrics are tested without the language in front of them. */
import {
  analysed,
  elementId,
  lugId,
  partId,
  shaftId,
  switchId,
  type AnalysedCircuit,
  type Circuit,
  type Element,
  type ElementId,
  type Joint,
  type JointKind,
  type Lug,
  type LugId,
  type Part,
  type PartId,
  type Quantity,
  type Shaft,
  type ShaftId,
  type Switch,
  type Taper,
  type Unit,
} from '../../language/circuit/model.js';

const range = { uri: 'test', start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

export interface CoilValues {
  ohm?: number;
  henry?: number;
  farad?: number;
  loss?: number;
  /** Share of the inductance that eddy currents short, and the resistance of their path. */
  eddy?: { readonly share: number; readonly ohm: number };
  exponent?: number;
  shading?: number;
  output?: number;
  winding?: 1 | -1;
  magnet?: 1 | -1;
  coupling?: number;
  tolerance?: number;
  known?: boolean;
}
export interface TrackValues {
  ohm?: number;
  taper?: Taper;
  mid?: number;
  empty?: number;
  full?: number;
  end?: number;
  tolerance?: number;
  rest?: number;
  noLoad?: boolean;
}
export interface ValueOptions {
  tolerance?: number;
  known?: boolean;
}

/** An element before it has its number; one that is its part's only element needs no name. */
type Draft<E> = E extends Element ? Omit<E, 'id' | 'name'> & { readonly name?: string } : never;

/** A coil of no capacitance unless it is given, so that closed forms hold. */
const coilDefaults = { ohm: 7500, henry: 3, farad: 0, output: 1, winding: 1 as const, magnet: 1 as const };

export class CircuitBuilder {
  private readonly parts: { -readonly [K in keyof Part]: Part[K] }[] = [];
  private readonly lugs: Lug[] = [];
  private readonly joints: Joint[] = [];
  private readonly elements: Element[] = [];
  private readonly switches: Switch[] = [];
  private readonly shafts: Shaft[] = [];
  private readonly byLabel = new Map<string, LugId>();
  private output: Circuit['output'];
  private rig = { cable: 500e-12, input: 1e6 };

  /** A lug by its label, `volume.3`. */
  lug(label: string): LugId {
    const id = this.byLabel.get(label);
    if (id === undefined) throw new Error(`the test names a lug that it did not make: ${label}`);
    return id;
  }

  part(name: string, type: string, family: Part['family'], lugs: readonly string[], metal: readonly string[] = []): PartId {
    const id = partId(this.parts.length);
    const first = this.lugs.length;
    for (const lug of lugs) {
      const label = lugs.length === 1 ? name : `${name}.${lug}`;
      const isMetal = metal.includes(lug);
      const own = lugId(this.lugs.length);
      this.byLabel.set(label, own);
      this.lugs.push({ id: own, part: id, name: lug, label, metal: isMetal, takesMany: isMetal, uses: [] });
    }
    this.parts.push({
      id,
      name,
      type,
      ancestry: [type, family],
      family,
      lugs: lugs.map((_, i) => lugId(first + i)),
      elements: [],
      properties: {},
      inPlace: false,
      rows: [],
      range,
      nameRange: range,
    });
    return id;
  }

  private add(element: Draft<Element>): ElementId {
    const id = elementId(this.elements.length);
    this.elements.push({ name: '', ...element, id });
    const part = this.parts[element.part]!;
    part.elements = [...part.elements, id];
    return id;
  }

  private coil(part: PartId, name: string, a: string, b: string, values: CoilValues): void {
    const v = { ...coilDefaults, ...values };
    const options = { tolerance: v.tolerance ?? 0, known: v.known ?? true };
    this.add({
      kind: 'coil',
      part,
      name,
      a: this.lug(a),
      b: this.lug(b),
      resistance: quantity(v.ohm, 'ohm', options),
      inductance: quantity(v.henry, 'henry'),
      capacitance: quantity(v.farad, 'farad'),
      ...(v.loss === undefined ? {} : { loss: quantity(v.loss, 'ohm') }),
      ...(v.eddy === undefined ? {} : { eddyInductance: v.eddy.share, eddyResistance: quantity(v.eddy.ohm, 'ohm') }),
      ...(v.exponent === undefined ? {} : { lossExponent: v.exponent }),
      ...(v.shading === undefined ? {} : { coverShading: v.shading }),
      output: v.output,
      winding: v.winding,
      magnet: v.magnet,
      ...(v.coupling === undefined ? {} : { coupling: v.coupling }),
    });
  }

  single(name: string, values: CoilValues = {}): this {
    const part = this.part(name, 'single-coil', 'pickup', ['hot', 'ground']);
    this.coil(part, 'main', `${name}.ground`, `${name}.hot`, values);
    return this;
  }

  /** Two coils that share the given values: half the resistance, inductance and voltage each, twice the capacitance. South over the other pole, wound the other way by its turn in the joint. */
  humbucker(name: string, values: CoilValues = {}, fourLead = false): this {
    const lugs = ['north-start', 'north-finish', 'south-start', 'south-finish'];
    const v = { ...coilDefaults, ...values };
    const half = {
      ...v,
      ohm: v.ohm / 2,
      henry: v.henry / 2,
      farad: v.farad * 2,
      output: v.output / 2,
      ...(v.eddy === undefined ? {} : { eddy: { ...v.eddy, ohm: v.eddy.ohm / 2 } }),
    };
    const part = this.part(name, fourLead ? 'humbucker-4' : 'humbucker', 'pickup', fourLead ? lugs : ['hot', 'ground', ...lugs]);
    const magnet = v.magnet;
    // Wound alike over opposite poles, joined finish to finish: in series, in phase, hum cancelled. With the north coil's start on
    // hot, its sign is turned so that the pickup is in phase with a single coil of the same values.
    this.coil(part, 'north', `${name}.north-start`, `${name}.north-finish`, { ...half, magnet: magnet === 1 ? -1 : 1 });
    this.coil(part, 'south', `${name}.south-start`, `${name}.south-finish`, { ...half, magnet });
    if (!fourLead) {
      this.join('inside', `${name}.hot`, `${name}.north-start`);
      this.join('inside', `${name}.north-finish`, `${name}.south-finish`);
      this.join('inside', `${name}.south-start`, `${name}.ground`);
    }
    return this;
  }

  private track(part: PartId, lugs: readonly [string, string, string], shaft: ShaftId, v: TrackValues): ElementId {
    const [a, wiper, b] = lugs.map((lug) => this.lug(lug)) as [LugId, LugId, LugId];
    return this.add({
      kind: 'track',
      name: '',
      part,
      a,
      b,
      wiper,
      resistance: quantity(v.ohm ?? 250e3, 'ohm', { tolerance: v.tolerance ?? 0 }),
      taper: v.taper ?? 'linear',
      mid: v.mid ?? 0.15,
      shaft,
      empty: v.empty ?? 0,
      full: v.full ?? 10,
      end: v.end ?? 0,
      ...(v.noLoad === true ? { leavesTo: b } : {}),
    });
  }

  private shaft(part: PartId, name: string, tracks: readonly ElementId[], rest: number): void {
    this.shafts.push({ id: shaftId(this.shafts.length), part, name, rest, turn: 'right', tracks });
  }

  pot(name: string, values: TrackValues = {}): this {
    const part = this.part(name, values.noLoad === true ? 'pot-no-load' : 'pot', 'control', ['1', '2', '3', 'case'], ['case']);
    const id = this.track(part, [`${name}.1`, `${name}.2`, `${name}.3`], shaftId(this.shafts.length), values);
    this.shaft(part, name, [id], values.rest ?? 10);
    return this;
  }

  /** One shaft, two tracks; `b` where the second differs from the first. */
  dual(name: string, a: TrackValues = {}, b: TrackValues = a): this {
    const part = this.part(name, 'pot-dual', 'control', ['1a', '2a', '3a', '1b', '2b', '3b', 'case'], ['case']);
    const shaft = shaftId(this.shafts.length);
    const first = this.track(part, [`${name}.1a`, `${name}.2a`, `${name}.3a`], shaft, a);
    const second = this.track(part, [`${name}.1b`, `${name}.2b`, `${name}.3b`], shaft, b);
    this.shaft(part, name, [first, second], a.rest ?? 10);
    return this;
  }

  blend(name: string, ohm = 250e3): this {
    return this.dual(name, { ohm, empty: 0, full: 5, rest: 5 }, { ohm, empty: 10, full: 5, rest: 5 });
  }

  resistor(name: string, ohm: number, a: string, b: string, options: ValueOptions = {}): this {
    const part = this.twoLeads(name, 'resistor', a, b);
    this.add({ kind: 'resistor', name: '', part, ...this.ends(part), resistance: quantity(ohm, 'ohm', options) });
    return this;
  }

  capacitor(name: string, farad: number, a: string, b: string): this {
    const part = this.twoLeads(name, 'capacitor', a, b);
    this.add({ kind: 'capacitor', name: '', part, ...this.ends(part), capacitance: quantity(farad, 'farad') });
    return this;
  }

  inductor(name: string, henry: number, a: string, b: string, ohm?: number): this {
    const part = this.twoLeads(name, 'inductor', a, b);
    const resistance = ohm === undefined ? {} : { resistance: quantity(ohm, 'ohm') };
    this.add({ kind: 'inductor', name: '', part, ...this.ends(part), inductance: quantity(henry, 'henry'), ...resistance });
    return this;
  }

  battery(name: string, plus: string, minus: string): this {
    const part = this.twoLeads(name, 'battery', plus, minus);
    this.add({ kind: 'battery', name: '', part, ...this.ends(part), voltage: quantity(9, 'volt') });
    return this;
  }

  buffer(name: string, values: { gain?: number; input?: number; output?: number } = {}): this {
    const part = this.part(name, 'buffer', 'amplifier', ['in', 'out', 'plus', 'minus']);
    this.add({
      kind: 'gain',
      name: '',
      part,
      a: this.lug(`${name}.in`),
      b: this.lug(`${name}.out`),
      plus: this.lug(`${name}.plus`),
      minus: this.lug(`${name}.minus`),
      gain: values.gain ?? 1,
      inputResistance: quantity(values.input ?? 1e6, 'ohm'),
      outputResistance: quantity(values.output ?? 1000, 'ohm'),
    });
    return this;
  }

  private twoLeads(name: string, type: string, a: string, b: string): PartId {
    const part = this.part(name, type, 'passive', ['a', 'b']);
    this.join('solder', `${name}.a`, a);
    this.join('solder', `${name}.b`, b);
    return part;
  }

  private ends(part: PartId): { a: LugId; b: LugId } {
    const [a, b] = this.parts[part]!.lugs as [LugId, LugId];
    return { a, b };
  }

  /** A switch by its lugs and what each position joins: `{ up: ['A out'], middle: ['A out B'] }`. Groups are lug names parted by spaces. */
  switch(name: string, positions: Readonly<Record<string, readonly string[]>>, rest?: number): this {
    const lugs = [...new Set(Object.values(positions).flatMap((joins) => joins.flatMap((group) => group.split(' '))))].sort();
    const part = this.part(name, 'test-switch', 'switch', [...lugs, 'frame'], ['frame']);
    this.switches.push({
      id: switchId(this.switches.length),
      part,
      name,
      positions: Object.entries(positions).map(([key, joins], i) => ({
        number: i + 1,
        key,
        label: key,
        joins: joins.map((group) => group.split(' ').map((lug) => this.lug(`${name}.${lug}`))),
      })),
      ...(rest === undefined ? {} : { rest }),
    });
    return this;
  }

  /** A switch of one pole and `throws` throws, A0 to A1, A2 … */
  selector(name: string, throws: number): this {
    return this.switch(name, Object.fromEntries(Array.from({ length: throws }, (_, i) => [String(i + 1), [`A0 A${i + 1}`]])));
  }

  toggle(name: string): this {
    return this.switch(name, { up: ['A out'], middle: ['A out B'], down: ['B out'] });
  }

  jack(name = 'output'): this {
    const part = this.part(name, 'jack', 'jack', ['tip', 'sleeve'], ['sleeve']);
    this.output ??= { part, tip: this.lug(`${name}.tip`), sleeve: this.lug(`${name}.sleeve`) };
    return this;
  }

  metal(name: string): this {
    this.part(name, 'bridge-ground', 'metal', ['lug'], ['lug']);
    return this;
  }

  rigged(cable: number, input: number): this {
    this.rig = { cable, input };
    return this;
  }

  join(kind: JointKind, a: string, b: string): this {
    this.joints.push({
      id: this.joints.length,
      kind,
      a: this.lug(a),
      b: this.lug(b),
      statement: this.joints.length,
      bare: false,
      twisted: false,
      shielded: false,
      ownLead: false,
      range,
      aRange: range,
      bRange: range,
      statementRange: range,
    });
    return this;
  }

  /** Runs from each lug to the next, as `wire a to b to c`. */
  wire(...labels: readonly string[]): this {
    for (let i = 1; i < labels.length; i++) this.join('wire', labels[i - 1]!, labels[i]!);
    return this;
  }

  build(): AnalysedCircuit {
    return analysed({
      uri: 'test',
      batch: 1,
      hand: 'right',
      seen: 'front',
      parts: [...this.parts],
      lugs: [...this.lugs],
      joints: [...this.joints],
      elements: [...this.elements],
      switches: [...this.switches],
      shafts: [...this.shafts],
      expectations: [],
      measurements: [],
      allows: [],
      cavities: [],
      channels: [],
      plates: [],
      rig: this.rig,
      ...(this.output === undefined ? {} : { output: this.output }),
      jacks: this.parts.filter((part) => part.family === 'jack').map((part) => part.id),
      problems: [],
      names: [],
      isLibrary: false,
    });
  }
}

function quantity(value: number, unit: Unit, options: ValueOptions = {}): Quantity {
  return { value, unit, tolerance: options.tolerance ?? 0, known: options.known ?? true };
}

/** A new circuit with a jack named `output`. */
export function circuit(): CircuitBuilder {
  return new CircuitBuilder().jack();
}
