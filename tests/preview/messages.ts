/** The messages that the extension sends to the panel, made of real circuits; nothing here needs a browser. */
import type { ToPanel } from '../../extension/preview/protocol.js';
import { createDiagram, draw, highlightOf } from '../../language/drawing/index.js';
import { positionTable, response } from '../../language/electrics/index.js';
import { controlsOf, curveOf, settingAt } from '../../language/live/index.js';
import { createProject } from '../../language/project.js';
import { elkLayout } from '../../server/elk.js';
import type { ControlsAt } from '../../server/protocol.js';

export const uri = 'file:///circuits/no-7.lug';
export const atRest: ControlsAt = { positions: {}, rotations: {} };

/** What the extension would send of a circuit. */
export async function messagesOf(text: string, at: ControlsAt = atRest): Promise<ToPanel[]> {
  const circuit = createProject({ read: (address) => (address === uri ? text : undefined) }).circuit(uri)!;
  const { scene, remarks } = await draw(circuit, elkLayout);
  const { rows, leftOut } = positionTable(circuit);
  return [
    { kind: 'state', state: { uri, side: 'solder', grounds: 'auto', at } },
    { kind: 'picture', scene, controls: controlsOf(circuit), remarks },
    {
      kind: 'table',
      leftOut,
      rows: rows.map(({ set, label, sound }) => ({
        set,
        label,
        sounds: sound.text,
        hum: sound.hum,
        reads: '6.9 k',
        peak: '4 kHz',
      })),
    },
    playedOf(text, at),
  ];
}

/** What a setting lights and sounds like. */
export function playedOf(text: string, at: ControlsAt): ToPanel {
  const circuit = createProject({ read: (address) => (address === uri ? text : undefined) }).circuit(uri)!;
  const setting = settingAt(circuit, at);
  const curve = curveOf(response(circuit, setting, { points: 120 }));
  return { kind: 'played', at, highlight: highlightOf(circuit, createDiagram(circuit), setting), curve };
}
