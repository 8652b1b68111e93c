/** Volumes, tones and what lies across them. */
import { addPart, join, lug, node, type Draft, type Node, type Part } from './draft.js';
import type { Role } from './names.js';
import type { Source } from './pickups.js';
import { addPot, addStack, type Pot } from './pots.js';
import type { Input } from './stages.js';
import type { Pole } from './switches.js';

/** What each pickup has to itself, before the selecting switch. */
export interface OwnControls {
  /** Fed at its end, or at its wiper so that one volume leaves the other pickup alone. */
  readonly volume: 'none' | 'end' | 'wiper';
  readonly tone: 'none' | 'input' | 'output';
  readonly isStacked: boolean;
  readonly bleed: boolean;
}

export function addOwnControls(draft: Draft, source: Source, { volume, tone, isStacked, bleed }: OwnControls): Input {
  const { hot, sounds, label } = source;
  if (volume === 'none') return { source, hot, sounds };
  draft.families.add(volume === 'wiper' ? 'independent volumes' : 'volume each');
  const [pot, second] = isStacked && tone !== 'none' ? addStack(draft, label) : [addPot(draft, 'volume', label), undefined];
  const out = addVolume(draft, pot, hot, volume);
  if (bleed) addBleed(draft, hot, out);
  if (tone !== 'none') addTone(draft, tone === 'input' ? hot : out, label, second);
  return { source, hot: out, sounds };
}

/** Returns what the volume gives. */
export function addVolume(draft: Draft, pot: Pot, hot: Node, fedAt: 'end' | 'wiper'): Node {
  draft.returns.push(pot.low);
  join(hot, fedAt === 'end' ? pot.high : pot.wiper);
  return node(draft, fedAt === 'end' ? pot.wiper : pot.high);
}

/** A treble bleed: a capacitor from input to output, with a resistor in series, in parallel, or none; or the same as an assembly. */
export function addBleed(draft: Draft, hot: Node, out: Node): void {
  const { dice } = draft;
  const way = dice.pick(['parallel', 'series', 'capacitor', 'module'] as const);
  draft.families.add('treble bleed');
  if (way === 'module') {
    const part = addPart(draft, 'bleed', { type: bleedType(draft), reach: 'leads' });
    join(hot, lug(part, 'top'));
    join(out, lug(part, 'bottom'));
    return;
  }
  const capacitor = addPart(draft, 'bleed-cap', {
    type: 'capacitor',
    values: [dice.pick(['680pF', '820p', '1nF', '1.2nF'])],
    reach: 'leads',
  });
  join(hot, lug(capacitor, 'a'));
  if (way === 'capacitor') return join(out, lug(capacitor, 'b'));
  const resistor = addPart(draft, 'bleed-resistor', {
    type: 'resistor',
    values: [dice.pick(['120k', '130k', '150k'])],
    reach: 'leads',
  });
  join(out, lug(resistor, 'b'));
  if (way === 'series') node(draft, lug(capacitor, 'b'), lug(resistor, 'a'));
  else {
    join(hot, lug(resistor, 'a'));
    join(out, lug(capacitor, 'b'));
  }
}

function bleedType(draft: Draft): string {
  const isSeries = draft.dice.percent(50);
  const name = isSeries ? 'series-bleed' : 'bleed-network';
  draft.families.add('sub-assembly');
  draft.types.set(
    name,
    [
      '/** Capacitor and resistor of a treble bleed, made up beforehand. */',
      `type ${name} : assembly {`,
      '  lugs top bottom',
      ...(isSeries
        ? ['  part c : capacitor 1nF from top to r.a', '  part r : resistor 130k', '  wire r.b to bottom']
        : ['  part c : capacitor 680pF from top to bottom', '  part r : resistor 150k from top to bottom']),
      '}',
    ].join('\n'),
  );
  return name;
}

const toneValues = ['10nF', '15nF', '22nF', '22n', '.022uF', '33nF', '47nF'] as const;

export function addToneCap(draft: Draft, role: Role, of: string): Part {
  const kind = draft.dice.pick([[], ['film'], ['ceramic'], ['paper']]);
  return addPart(draft, role, { type: 'capacitor', values: [draft.dice.pick(toneValues), ...kind], reach: 'leads' }, of);
}

/** A tone control from a node to ground, in one of the usual forms; `of` is the pickup that it is for, or nothing for the one of the whole. */
export function addTone(draft: Draft, hot: Node, of = '', given?: Pot): void {
  const { dice } = draft;
  if (given === undefined && dice.percent(10)) return addToneModule(draft, hot);
  const isNoLoad = given === undefined && !draft.isLeft && dice.percent(15);
  const pot = given ?? addPot(draft, of === '' ? 'master-tone' : 'tone', of, { isNoLoad });
  const capacitor = addToneCap(draft, of === '' ? 'master-cap' : 'cap', of);
  if (isNoLoad) draft.families.add('no-load tone');
  const [a, b] = [lug(capacitor, 'a'), lug(capacitor, 'b')];
  switch (
    dice.pick(
      isNoLoad
        ? (['usual', 'capacitor first'] as const)
        : (['usual', 'usual', 'capacitor first', 'wiper last', 'jumper'] as const),
    )
  ) {
    case 'usual':
      join(hot, pot.wiper);
      node(draft, pot.low, a);
      draft.returns.push(b);
      return;
    case 'jumper':
      join(hot, pot.wiper, pot.high);
      node(draft, pot.low, a);
      draft.returns.push(b);
      return;
    case 'wiper last':
      join(hot, pot.low);
      node(draft, pot.wiper, a);
      draft.returns.push(b);
      return;
    case 'capacitor first':
      join(hot, a);
      node(draft, b, pot.wiper);
      draft.returns.push(pot.low);
  }
}

/** Pot and capacitor of a tone as one piece with two lugs. */
function addToneModule(draft: Draft, hot: Node): void {
  draft.families.add('sub-assembly');
  draft.types.set(
    'tone-board',
    [
      '/** A tone control on a separate board. */',
      'type tone-board : assembly {',
      '  lugs in ground',
      '  part turn : pot 500k audio',
      `  part cap : capacitor 22nF from turn.${draft.isLeft ? '3' : '1'} to ground`,
      '  wire in to turn.2',
      '  wire turn.case to ground',
      '}',
    ].join('\n'),
  );
  const part = addPart(draft, 'module', { type: 'tone-board' });
  join(hot, lug(part, 'in'));
  draft.returns.push(lug(part, 'ground'));
}

/** Two tones that share a capacitor, each joined to the signal by the spare pole of the selecting switch where its pickups sound. */
export function addSharedTones(draft: Draft, out: Node, { common, throws }: Pole): void {
  const [rear, front] = [addPot(draft, 'tone', 'rear'), addPot(draft, 'tone', 'front')];
  const capacitor = addToneCap(draft, 'master-cap', '');
  draft.families.add('shared capacitor');
  join(out, common);
  const first = draft.dice.percent(50) ? 2 : 1;
  node(draft, ...throws.slice(0, first), rear.wiper);
  node(draft, ...throws.slice(first), front.wiper);
  node(draft, rear.low, front.low, lug(capacitor, 'a'));
  draft.returns.push(lug(capacitor, 'b'));
}

/** A rotary switch with a capacitor for each position but the first. */
export function addToneSwitch(draft: Draft, hot: Node): void {
  const { dice } = draft;
  const values = ['2.2nF', '4.7nF', '10nF', '22nF', '47nF'].slice(dice.whole(0, 1), dice.whole(3, 5));
  const part = addPart(draft, 'colour', { type: 'rotary-1x12', properties: [`stop ${values.length + 1}`] });
  const resistor = addPart(
    draft,
    'resistor',
    { type: 'resistor', values: [dice.pick(['2.2k', '4.7k', '10k'])], reach: 'leads' },
    part.name,
  );
  draft.metal.push(lug(part, 'frame'));
  draft.families.add('tone switch');
  join(hot, lug(resistor, 'a'));
  node(draft, lug(resistor, 'b'), lug(part, 'A0'));
  values.forEach((value, index) => {
    const capacitor = addPart(draft, 'cap', { type: 'capacitor', values: [value], reach: 'leads' }, part.name);
    node(draft, lug(part, `A${index + 2}`), lug(capacitor, 'a'));
    draft.returns.push(lug(capacitor, 'b'));
  });
}

/** A capacitor in the signal with a pot across it that lets the bass past. Returns what goes on. */
export function addBassCut(draft: Draft, hot: Node): Node {
  const pot = addPart(draft, 'bass-cut', { type: 'pot', values: ['1M', draft.isLeft ? 'audio' : 'reverse-audio'] });
  const { wiper, high } = { wiper: lug(pot, '2'), high: lug(pot, draft.isLeft ? '1' : '3') };
  const capacitor = addPart(draft, 'bass-cap', {
    type: 'capacitor',
    values: [draft.dice.pick(['2.2nF', '3.3nF'])],
    reach: 'leads',
  });
  draft.metal.push(lug(pot, 'case'));
  draft.families.add('bass cut');
  join(hot, wiper, lug(capacitor, 'a'));
  return node(draft, high, lug(capacitor, 'b'));
}
