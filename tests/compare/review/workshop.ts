/** A workshop's repository as a maintainer meets it: five circuits, the house's parts, a record; each branch is one edit of it. */
import { repositoryWith, type Repository } from '../../harness/repository.js';
import { base } from '../cases.js';

const house = `/** The house's parts. */
type house-pot : pot { takes resistance 500k, taper audio|linear }
type house-mute : switch {
  lugs A0 A1 A2 frame
  rows A1 A0 A2
  positions "play" "mute"
  at "play" joins A0 A1
  at "mute" joins A0 A2
  metal frame
}
`;

/** One pickup behind the house's mute switch: what comes from the volume on A1, the tip on A0, ground on A2. */
function muted(number: number, resistance: string): string {
  return `use "../parts/house.lug"

instrument "Alder Lane no. ${number}"
rig { cable 400pF, input 500k }

part pickup : single-coil ${resistance} 3H 100pF
part volume : house-pot
part mute : house-mute { role mute }
part saddle : bridge-ground
part output : jack

wire pickup.hot to volume.3
wire volume.2 to mute.A1
wire mute.A0 to output.tip
wire mute.A2 to volume.case
wire mute.frame to volume.case
solder volume.1 to volume.case
wire pickup.ground to volume.case
wire saddle to volume.case black 22awg
wire volume.case to output.sleeve black 22awg

expect mute "play" : sounds pickup
expect mute "mute" : silent
`;
}

/** The files of the main branch, by path. */
export const files: Readonly<Record<string, string>> = {
  'parts/house.lug': house,
  'circuits/no-41.lug': `${base('one')}expect : reads 7.39k within 5%\n`,
  'circuits/no-42.lug': base('two'),
  'circuits/no-43.lug': base('tone'),
  'circuits/no-44.lug': muted(44, '7.5k'),
  'circuits/no-45.lug': muted(45, '7.2k'),
  'circuits/no-41.no-1.lug':
    'use "no-41.lug"\n\nrecord 1 {\n  by "Alder Lane", date "2026-11-20"\n  changed "A new jack."\n}\n\nactual pickup 7.4k\n\nmeasured : reads 7.29k\n',
};

/** What a branch does to the files; `undefined` deletes one. */
export type Edit = (files: Readonly<Record<string, string>>) => Readonly<Record<string, string | undefined>>;

export interface Workshop {
  readonly folder: string;
  readonly git: Repository['git'];
  /** Makes a branch of main with that edit as one commit. */
  branch(name: string, edit: Edit): void;
}

export function createWorkshop(): Workshop {
  const { folder, git, commit } = repositoryWith(files);
  return {
    folder,
    git,
    branch(name, edit) {
      git('checkout', '-q', '-b', name, 'main');
      commit(name, Object.fromEntries(Object.entries(edit(files)).map(([path, text]) => [path, text ?? null])));
      git('checkout', '-q', 'main');
    },
  };
}

/** Edits one file: each pair is a text that must be there and what it becomes. */
export function edit(path: string, ...pairs: readonly (readonly [string, string])[]): Edit {
  return (all) => {
    let text = all[path];
    if (text === undefined) throw new Error(`no file ${path}`);
    for (const [old, now] of pairs) {
      if (!text.includes(old)) throw new Error(`no “${old}” in ${path}`);
      text = text.replace(old, now);
    }
    return { [path]: text };
  };
}
