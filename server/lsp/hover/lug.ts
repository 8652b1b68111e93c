/** Hover on a lug: its net, everything soldered to it, its resistance to ground, and the positions that join it to others. */
import {
  amount,
  lugById,
  partById,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type Lug,
  type LugId,
} from '../../../language/circuit/index.js';
import { jointClasses, netAnswer, restingSetting } from '../../../language/electrics/index.js';
import { rolesOfPart, roleText } from '../../../language/roles/index.js';
import { escapeMarkdown } from '../../../language/escape.js';
import { readingText } from './figures.js';
import { code, codes, paragraphs, table } from './markdown.js';

/** `written` is the word in the text, which may be a second name or a side of a pot. */
export function lugHover(circuit: AnalysedCircuit, lug: Lug, written: string): string {
  const { name, lugs, isGround, isOutput, toGround } = netAnswer(circuit, restingSetting(circuit), lug.id);
  const own = partById(circuit, lug.part);
  const facts: [string, string | undefined][] = [
    [code(lug.label), `${lug.metal ? 'metal of' : 'lug of'} ${code(own.name)}`],
    [
      'named',
      written === lug.name || written === own.name
        ? undefined
        : `${code(written)} is lug ${code(lug.name)}, as seen in this diagram`,
    ],
    ['for', purposeOf(circuit, lug)],
    ['net', isGround ? 'ground' : `${code(name)}${isOutput ? ', the output' : ''}`],
    [
      'with',
      lugs.length > 1 ? codes(lugs.filter((id) => id !== lug.id).map((id) => lugById(circuit, id).label)) : 'nothing else',
    ],
    ['DC to ground', isGround || toGround === undefined ? undefined : readingText(toGround)],
  ];
  return paragraphs(table(facts), joints(circuit, lug.id), contacts(circuit, lug.id));
}

/** `input of the volume of neck`. */
function purposeOf(circuit: AnalysedCircuit, { id, part }: Lug): string | undefined {
  for (const role of rolesOfPart(circuit, part)) {
    const purpose = role.lugs.get(id);
    if (purpose !== undefined) return escapeMarkdown(`${purpose} of the ${roleText(circuit, role)}`);
  }
  return undefined;
}

function joints(circuit: Circuit, lug: LugId): string {
  const rows = circuit.joints
    .filter(({ a, b }) => a === lug || b === lug)
    .map((joint) => [code(lugById(circuit, joint.a === lug ? joint.b : joint.a).label), jointText(joint)]);
  return rows.length === 0 ? 'Nothing is soldered to it.' : table([['joined to', 'by'], ...rows]);
}

export function jointText({ kind, colour, gauge, shielded, twisted, bare, ownLead, make = [] }: Joint): string {
  if (kind === 'touch') return 'metal on metal';
  if (kind === 'inside') return 'a joint inside the part';
  if (kind === 'screen') return 'a screen';
  const words = [
    bare ? 'bare' : '',
    shielded ? 'shielded' : '',
    twisted ? 'twisted' : '',
    ...make,
    colour ?? '',
    gauge === undefined ? '' : amount(gauge, 'awg'),
  ];
  const noun = kind === 'solder' ? 'solder' : ownLead ? 'lead' : 'wire';
  return [...words.filter((word) => word !== ''), noun].join(' ');
}

/** The contacts that touch what the lug is soldered to, position by position. */
function contacts(circuit: AnalysedCircuit, lug: LugId): string {
  const { of } = jointClasses(circuit);
  const rows = circuit.switches.flatMap((device) =>
    device.positions.flatMap((position) => {
      const met = position.joins.filter(
        (group) => group.some((other) => of[other] === of[lug]) && group.some((other) => of[other] !== of[lug]),
      );
      const others = new Set(met.flat().filter((other) => of[other] !== of[lug]));
      return others.size === 0
        ? []
        : [[`${code(device.name)} ${code(position.label)}`, codes([...others].map((id) => lugById(circuit, id).label))]];
    }),
  );
  return rows.length === 0 ? '' : table([['position', 'joins it to'], ...rows]);
}
