/** Parts that go in one way round only, or suffer from heat or static: what to mind before the iron is near them. */
import { type Element, elementById, lugById, type LugId, type Part } from '../../circuit/model.js';
import { listed } from '../../words.js';
import type { Build } from '../build.js';

/** The lead to look for, by standard type, and how it is marked; common practice. */
const marked: readonly (readonly [type: string, lead: string, mark: string])[] = [
  ['electrolytic', 'plus', 'plus'],
  ['led', 'cathode', 'the cathode, its shorter lead,'],
  ['diode', 'cathode', 'the cathode, at its band,'],
  ['zener', 'cathode', 'the cathode, at its band,'],
];

/** A sentence for each thing to mind, none where no such part is in the build. */
export function delicateNotes({ circuit }: Build): readonly string[] {
  const kindsOf = (part: Part) => part.elements.map((id) => elementById(circuit, id));
  const ways = circuit.parts.flatMap((part) => {
    const found = marked.find(([type]) => part.ancestry.includes(type));
    const lead = part.lugs.find((lug) => lugById(circuit, lug).name === found?.[1]);
    if (found === undefined || lead === undefined) return [];
    const to = landing(circuit, part, lead);
    return to === undefined ? [] : [`${part.name}: ${found[2]} to ${to}`];
  });
  const named = (fits: (part: Part) => boolean): readonly string[] => circuit.parts.filter(fits).map(({ name }) => name);
  const legged = named((part) => kindsOf(part).some((one) => isChip(one) || one.kind === 'diode') && part.lugs.length > 2);
  const semiconductors = named((part) => kindsOf(part).some((one) => isChip(one) || one.kind === 'diode'));
  const charged = named((part) => kindsOf(part).some(isChip));
  return [
    ...(ways.length === 0 ? [] : [`Mind which way round: ${ways.join('; ')}.`]),
    ...(legged.length === 0
      ? []
      : [`The order of legs differs between types: find that of ${listed(legged)} in its data sheet before you solder.`]),
    ...(semiconductors.length === 0
      ? []
      : [
          `Heat harms ${listed(semiconductors)}: clip a heat sink on each leg between joint and body, and take the iron off after three seconds.`,
        ]),
    ...(charged.length === 0
      ? []
      : [`Static harms ${listed(charged)}: touch grounded metal first, and leave each in its foil until it is soldered.`]),
  ];
}

/** A transistor or an op-amp, by itself and not as a finished board. */
function isChip(element: Element): boolean {
  return element.kind === 'gain' && (element.transistor !== undefined || element.inverting !== undefined);
}

/** Where a lead of a part is soldered by itself: the lug at the other end, where there is just one. */
function landing(circuit: Build['circuit'], part: Part, lead: LugId): string | undefined {
  const others = circuit.joints.flatMap(({ a, b }) => (a === lead ? [b] : b === lead ? [a] : []));
  const [other, more] = others;
  return other === undefined || more !== undefined || !part.inPlace ? undefined : lugById(circuit, other).label;
}
