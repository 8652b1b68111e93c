/** Completion held against whole circuits: cut off before any word, the word that stood there is among what is offered. */
import type { CompletionList } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { isComment, tokenize, type Token } from '../../language/grammar/index.js';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

const others = `use "house.lug"

/** Declared before it is used. */
type slide : switch {
  lugs A0 A1 A2 frame
  optional cover
  rows A1 A0 A2 / frame cover
  positions "play" "mute"
  at "play" joins A0 A1
  at "mute" joins A0 A2
  rest "play"
  metal frame
}
type dark : pickup {
  lugs hot ground
  takes resistance 8k, wound forward|reverse
  coil main from ground to hot { resistance resistance, inductance 4H, wound reverse }
  also screw for hot
}
type knob : control {
  lugs 1 2 3
  track from 1 to 3 wiper 2 { resistance 250k, taper audio }
}
type bleed : assembly {
  lugs top bottom
  part c : capacitor 680pF from top to bottom
  part r : resistor 150k across c.a and c.b
  wire top to r.a
}
cavity main shield depth 38mm
cavity side
channel main to side 85mm bore 6mm
part neck : humbucker-4 { lead north-start white, lead shield black }
part volume : pot-push-pull 250k audio { turn left }
part blend : pot-concentric
part kill : slide
part out : jack-stereo { rest stereo }
part cap : capacitor 22nF film across volume.1 and volume.3
plate top in main metal shield { volume at 10 10, kill }
place neck, out in side at 1cm 1cm
rig { cable 3m, input 1M }
instrument "Alder Lane no. 66" { batch 2, hand left, seen back }
wire neck.north-start to volume.3 white 22awg 10cm shielded screen to volume.case and out.sleeve
solder volume.A1 to volume.A0
expect volume up, kill "play", blend.a 7 : sounds series(neck.north, reversed neck.south), hum cancelled, reads 8k within 10%
measured between neck.north-start and out.sleeve, kill 1 : reads open
measured volume down : reads short, hums, silent, peak 3kHz within 5%, cutoff 5kHz within 5%, level -6dB at 3kHz within 2dB
allow crowded-lug on volume.case "short wires"
`;

/** Words that are the writer's own: a new name, a text, a figure. */
function isFree(tokens: readonly Token[], i: number): boolean {
  const [before, token] = [tokens[i - 1], tokens[i]!];
  if (token.kind === 'value' || token.kind === 'blank') return true;
  if (token.kind === 'text')
    return (
      before?.image === 'instrument' || before?.image === 'positions' || before?.kind === 'text' || token.image.includes(' ')
    );
  if (['part', 'type', 'cavity', 'plate', 'lugs', 'optional', 'also'].includes(before?.image ?? '') && token.first === false)
    return true;
  // The rest of a row of new names, and names of inner elements.
  const line = tokens.filter((one) => one.line === token.line);
  const head = line[0]!.image;
  if (head === 'lugs' || head === 'optional') return line[0] !== token;
  return head === 'coil' && line[1] === token;
}

test.each([
  ['a plain circuit', twoPickups()],
  ['everything else', others],
])(
  '%s',
  async (_, text) => {
    const editor = await startEditor({ files: { 'house.lug': '' } });
    const { uri } = await editor.open('a.lug', text);
    const lines = text.split('\n');
    const tokens = tokenize(text).filter((token) => !isComment(token));
    const missed: string[] = [];
    let asked = 0;
    for (const [i, token] of tokens.entries()) {
      if (token.kind === 'sign' || isFree(tokens, i)) continue;
      const { line, character } = token;
      const cut = lines[line]!.slice(0, character);
      await editor.change(uri, [{ text: [...lines.slice(0, line), cut, ...lines.slice(line + 1)].join('\n') }]);
      const found = await editor.ask<CompletionList | null>('textDocument/completion', {
        textDocument: { uri },
        position: { line, character },
        context: { triggerKind: 1 },
      });
      asked++;
      const labels = found?.items.flatMap(({ label, textEdit }) => [label, textEdit!.newText]) ?? [];
      const isThere = labels.some(
        (label) => label === token.image || label.startsWith(`${token.image} `) || label.startsWith(`${token.image}(`),
      );
      if (!isThere) missed.push(`${cut}<|>${token.image}`);
    }
    expect(missed).toEqual([]);
    expect(asked).toBeGreaterThan(100);
    expect(editor.log).toEqual([]);
    // Several hundred questions: no machine is judged by its clock.
  },
  60_000,
);
