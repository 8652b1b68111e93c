/** What each picture of the README and of the walkthrough is made from: the text that the command writes of an example, and its hash. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { starter } from '../../../extension/starter.js';
import { read, root } from '../../harness/checkout.js';

/** Where the pictures lie, and the file that says what each was made from. */
export const picturesFolder = join('server', 'docs', 'pictures');
export const madeFrom = join(root, picturesFolder, 'made-from.json');

/** Of one picture: the hash of its source and of the picture itself. */
export interface Made {
  readonly source: string;
  readonly picture: string;
}

export interface Sources {
  /** Circuits by file name, from which the rest is made. */
  readonly circuits: Readonly<Record<string, string>>;
  /** What each picture shows, by the picture's name. */
  readonly texts: Readonly<
    Record<'drawing' | 'finding' | 'sheet' | 'page' | 'comparison' | 'circuit' | 'hover' | 'testing', string>
  >;
}

const example = 'two-single-coils-lever-3.lug';

/** The circuit itself, a copy with the neck's leads exchanged and one with a wire missing; what `lugwork` says of them in a folder that holds them. */
export function sourcesOf(run: (circuits: Sources['circuits']) => (...words: string[]) => string): Sources {
  const text = read(`examples/${example}`);
  const circuits = {
    'no-3.lug': text,
    // The neck's leads exchanged: out of phase in the middle position.
    'no-3-changed.lug': edited(text, [
      ['neck.hot    to selector.B3', 'neck.ground to selector.B3'],
      ['neck.ground    to volume.case', 'neck.hot       to volume.case'],
    ]),
    'no-3-broken.lug': edited(text, [['wire selector.B3 to selector.B2 bare 24awg\n', '']]),
  };
  const lugwork = run({ ...circuits, 'starter.lug': starter });
  return {
    circuits,
    texts: {
      drawing: lugwork('draw', '--scheme', 'light', '--set', 'selector "both"', 'no-3.lug'),
      finding: circuits['no-3-broken.lug'] + lugwork('check', '--format', 'json', 'no-3-broken.lug'),
      sheet: lugwork('sheet', '--format', 'html', 'no-3.lug'),
      // The script draws and computes, and has no words that the rest lacks; the drawing is the one above.
      page: lugwork('page', 'no-3.lug').replace(/<meta http-equiv[^>]*>|<script[^]*?<\/script>/g, ''),
      circuit: starter + lugwork('check', '--format', 'json', 'starter.lug'),
      hover: starter + lugwork('positions', 'starter.lug'),
      testing: circuits['no-3-broken.lug'] + lugwork('check', '--format', 'json', '--all', 'no-3-broken.lug'),
      comparison: lugwork('compare', '--format', 'svg', 'no-3.lug', 'no-3-changed.lug'),
    },
  };
}

export function hashOf(bytes: string | Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** The text with these pieces exchanged; a piece that is not there is an error. */
function edited(text: string, changes: readonly (readonly [was: string, is: string])[]): string {
  return changes.reduce((now, [was, is]) => {
    if (!now.includes(was)) throw new Error(`examples/${example} has no “${was}”, which a picture changes.`);
    return now.replace(was, is);
  }, text);
}
