/** The text of a drawn circuit, as a luthier types it: parts, then wires, in a hand that differs from circuit to circuit. */
import { written, type Draft, type Lug, type Part } from './draft.js';
import { groundOf, isLead } from './ground.js';
import { isCrowded, runsOf, type Run } from './wiring.js';

/** Nothing where some lug would be crowded. */
export function textOf(draft: Draft, number: number): string | undefined {
  const inPlace = inPlaceOf(draft);
  const ground = groundOf(draft);
  const lined = draft.nodes.filter(({ lugs }) => lugs.length > 0);
  const runs = lined.flatMap((one) => runsOf(draft, one, inPlace));
  const home = (part: Part): Part => {
    const other = runs.find(({ from }) => from.part === part)?.to.part;
    return other ?? part;
  };
  const returned = [
    ...draft.returns,
    ...lined.filter(({ isGround }) => isGround === true).map(({ lugs }) => lugs.find((one) => !isLead(one))!),
  ];
  const grounded = returned.map((from) => ({ from, to: ground.placeFor(isLead(from) ? home(from.part) : from.part) }));
  const all = [...runs, ...grounded];
  if (isCrowded(all, inPlace)) return undefined;
  const wires = all.filter(({ from }) => !inPlace.has(from.part));
  const parts = draft.parts.map((part) => partLine(draft, part, inPlace.has(part) ? all : []));
  const types = [...draft.types.values()];
  const typesFirst = draft.dice.percent(60);
  return [
    `instrument "Alder Lane no. ${number}"${draft.isLeft ? ' { hand left }' : ''}`,
    '',
    ...(typesFirst ? types.flatMap((type) => [type, '']) : []),
    ...parts,
    ...(draft.dice.percent(15) ? [`rig { cable ${draft.dice.whole(3, 6)}m, input 1M }`] : []),
    ...draft.lines,
    '',
    ...wireLines(draft, wires),
    ...ground.lines.filter((line) => line !== ''),
    ...(typesFirst ? [] : types.flatMap((type) => ['', type])),
    '',
  ].join('\n');
}

/** Small parts that are soldered in place: not those on which another lead has to end. */
function inPlaceOf(draft: Draft): ReadonlySet<Part> {
  const carriers = new Set(draft.nodes.filter(({ lugs }) => lugs.every(isLead)).map(({ lugs }) => lugs[0]?.part));
  const small = draft.parts.filter(
    ({ reach, type }) => reach === 'leads' && ['capacitor', 'resistor', 'electrolytic'].includes(type),
  );
  return new Set(small.filter((part) => !carriers.has(part) && draft.dice.percent(80)));
}

function partLine(draft: Draft, part: Part, runs: readonly Run[]): string {
  const { name, type, values, properties } = part;
  const braces = properties.length === 0 ? '' : ` { ${properties.join(', ')} }`;
  const [a, b] = runs.filter(({ from }) => from.part === part).sort((one, other) => rank(one) - rank(other));
  const place =
    a === undefined || b === undefined
      ? ''
      : draft.dice.percent(80)
        ? ` from ${written(a.to)} to ${written(b.to)}`
        : ` across ${written(a.to)} and ${written(b.to)}`;
  return `part ${name} : ${[type, ...values].join(' ')}${braces}${place}`;
}

function rank({ from }: Run): number {
  return ['a', 'plus'].includes(from.name) ? 0 : 1;
}

function wireLines(draft: Draft, runs: readonly Run[]): string[] {
  const { dice } = draft;
  const colours = dice.pick([[''], ['', ' white', ' yellow'], [' yellow 24awg', ' white 24awg', ' blue 24awg', ' grey 24awg']]);
  const lines: string[] = [];
  for (let index = 0; index < runs.length; index++) {
    const { from, to } = runs[index]!;
    const braid = draft.braids.find(({ hot }) => hot === from);
    if (braid !== undefined) {
      const place = draft.metal.find(({ name }) => name === 'case') ?? { part: draft.outputs[0]!.tip.part, name: 'sleeve' };
      lines.push(`wire ${written(from)} to ${written(to)} shielded screen to ${written(braid.cold)} and ${written(place)}`);
    } else if (from.part === to.part && isSoldered(from, to) && dice.percent(70))
      lines.push(`solder ${written(from)} to ${written(to)}`);
    else if (isLead(from))
      lines.push(dice.percent(90) ? `wire ${written(from)} to ${written(to)}` : `wire ${written(to)} to ${written(from)}`);
    else {
      const chain = [from, to];
      while (runs[index + 1]?.from === chain.at(-1) && dice.percent(60)) chain.push(runs[++index]!.to);
      lines.push(`wire ${chain.map(written).join(' to ')}${dice.pick(colours)}`);
    }
  }
  return dice.percent(30) ? dice.shuffled(lines) : lines;
}

/** A cover on the ground lead, the low end of a volume on its case. */
function isSoldered(from: Lug, to: Lug): boolean {
  return to.name === 'case' || from.name === 'cover';
}
