/** Whole statements, with places to fill in. */
import { CompletionItemKind } from 'vscode-languageserver';
import type { Asked, Offer } from './item.js';

interface Form {
  readonly word: string;
  readonly text: string;
  readonly detail: string;
}

const inFile: readonly Form[] = [
  { word: 'part', text: 'part ${1:name} : ${2:pot} $0', detail: 'a part: part NAME : TYPE values { properties }' },
  { word: 'wire', text: 'wire ${1:part.lug} to ${2:part.lug}$0', detail: 'a wire: wire LUG to LUG colour gauge length' },
  { word: 'solder', text: 'solder ${1:part.lug} to ${2:part.lug}$0', detail: 'a lug bent onto another: solder LUG to LUG' },
  { word: 'expect', text: 'expect ${1:selector} ${2:1} : ${0:sounds }', detail: 'what is meant: expect SETTING : CLAIM' },
  { word: 'instrument', text: 'instrument "${1:title}"$0', detail: 'the title: instrument "TITLE"' },
  { word: 'use', text: 'use "${1:path.lug}"$0', detail: 'another file: use "PATH.lug"' },
  { word: 'cavity', text: 'cavity ${1:control} shield$0', detail: 'a cavity: cavity NAME shield depth 38mm' },
  {
    word: 'channel',
    text: 'channel ${1:cavity} to ${2:cavity} ${3:85mm}$0',
    detail: 'a drilled channel: channel CAVITY to CAVITY 85mm',
  },
  {
    word: 'plate',
    text: 'plate ${1:name} in ${2:cavity} { ${3:part} at ${4:20} ${5:20} }$0',
    detail: 'a plate that carries parts',
  },
  { word: 'place', text: 'place ${1:part} in ${2:cavity}$0', detail: 'a part in a cavity: place PART in CAVITY at X Y' },
  { word: 'rig', text: 'rig { cable ${1:500pF}, input ${2:1M} }$0', detail: 'lead and amplifier' },
  {
    word: 'record',
    text: 'record ${1:1} { by "${2}", changed "${3}" }$0',
    detail: 'the record of one instrument of the batch, in a file that uses the circuit',
  },
  { word: 'actual', text: 'actual ${1:part} ${2:6.31k}$0', detail: 'what a part measures in hand' },
  { word: 'build', text: 'build { slack ${1:20mm}, gauge ${2:22awg} }$0', detail: 'habits of the workshop, for the bench sheet' },
  {
    word: 'measured',
    text: 'measured ${1:selector} ${2:1} : reads ${0:6.2k}',
    detail: 'a reading taken: measured SETTING : CLAIM',
  },
  {
    word: 'allow',
    text: 'allow ${1:rule} on ${2:part} "${3:why}"$0',
    detail: 'a finding that is wanted: allow RULE on NAME "why"',
  },
  { word: 'type', text: 'type ${1:name} : ${2:switch} {\n\tlugs ${3:A0 A1}\n\t$0\n}', detail: 'a type of one’s own' },
];

const inBody: readonly Form[] = [
  { word: 'lugs', text: 'lugs ${0:A0 A1 A2}', detail: 'its lugs' },
  { word: 'optional', text: 'optional ${0:cover}', detail: 'lugs that exist where they are named' },
  { word: 'metal', text: 'metal ${0:frame}', detail: 'lugs that belong on ground' },
  { word: 'rows', text: 'rows ${1:A1 A0 A2} / ${0:B1 B0 B2}', detail: 'where lugs lie, seen from the solder side' },
  { word: 'takes', text: 'takes ${1:resistance} ${0:6.5k}', detail: 'a parameter and its default' },
  { word: 'positions', text: 'positions "${1:play}" "${0:mute}"', detail: 'its positions in order' },
  { word: 'at', text: 'at ${1:1} joins ${0:A0 A1}', detail: 'what a position joins' },
  { word: 'rest', text: 'rest ${0:1}', detail: 'where it rests by itself' },
  { word: 'also', text: 'also ${1:screw} for ${0:north}', detail: 'a second name of a lug or coil' },
  {
    word: 'coil',
    text: 'coil ${1:main} from ${2:ground} to ${3:hot} { resistance ${4:6.5k}, inductance ${5:2.6H}, capacitance ${0:110pF} }',
    detail: 'a winding',
  },
  { word: 'resistor', text: 'resistor ${1:r} from ${2:a} to ${3:b} { resistance ${0:150k} }', detail: 'a resistance inside' },
  { word: 'capacitor', text: 'capacitor ${1:c} from ${2:a} to ${3:b} { capacitance ${0:22nF} }', detail: 'a capacitance inside' },
  { word: 'inductor', text: 'inductor ${1:l} from ${2:a} to ${3:b} { inductance ${0:1.5H} }', detail: 'an inductance inside' },
  { word: 'battery', text: 'battery ${1:cell} from ${2:plus} to ${3:minus} { voltage ${0:9V} }', detail: 'a battery inside' },
  {
    word: 'track',
    text: 'track from ${1:1} to ${2:3} wiper ${3:2} { resistance ${4:250k}, taper ${0:audio} }',
    detail: 'a pot’s track',
  },
  {
    word: 'gain',
    text: 'gain from ${1:in} to ${2:out} { gain ${3:1}, plus ${4:plus}, minus ${0:minus} }',
    detail: 'an amplifier stage',
  },
  { word: 'part', text: 'part ${1:name} : ${2:capacitor} ${3:680pF} from ${4:a} to ${0:b}', detail: 'a part inside' },
  { word: 'wire', text: 'wire ${1:lug} to ${0:lug}', detail: 'a wire inside' },
  { word: 'solder', text: 'solder ${1:lug} to ${0:lug}', detail: 'a joint inside' },
];

/** What a base has no use for is not offered in its body. */
const notIn: Readonly<Record<string, readonly string[]>> = {
  pickup: ['positions', 'at', 'rest', 'track', 'gain', 'battery'],
  passive: ['positions', 'at', 'rest', 'track', 'gain', 'coil'],
  metal: ['positions', 'at', 'rest', 'track', 'gain', 'coil', 'takes'],
};

/** Statements that may stand here; an instrument has one title, one rig and one build, titles first while there is none. */
export function statementOffers({ scope, type, at }: Asked): Offer[] {
  const written = new Set(at.tree.statements.map(({ kind }) => kind));
  const once = new Set<string>((['instrument', 'rig', 'build', 'record'] as const).filter((word) => written.has(word)));
  const unfit = new Set(scope === 'type' ? (notIn[type?.base ?? ''] ?? []) : once);
  return (scope === 'type' ? inBody : inFile)
    .filter(({ word }) => !unfit.has(word))
    .map(({ word, text, detail }) => ({ label: word, kind: CompletionItemKind.Snippet, text, isSnippet: true, detail }));
}
