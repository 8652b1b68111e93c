/** What the panel asks the server: drawings made once and beforehand, the last whole text while it is broken, settings by name. */
import { expect, test } from 'vitest';
import { draw, simpleLayout, type DrawOptions } from '../../language/drawing/index.js';
import { readLivePage } from '../../language/live/index.js';
import type { DrawInThread } from '../../server/drawing-thread.js';
import type { ServerRequests } from '../../server/protocol.js';
import { startEditor, type Editor } from '../lsp/harness.js';

const text = `instrument "Alder Lane no. 31"
part coil : single-coil 6k 2H 100pF
part shy : push-on
part volume : pot 250k audio
part choose : mini-dpdt { positions "full" "thin" }
part thin-cap : capacitor 2.2nF from choose.A2 to volume.3
part out : jack
wire coil.hot to choose.A0
wire choose.A1 to volume.3
wire volume.2 to out.tip red
wire coil.ground to volume.1 to out.sleeve
solder volume.1 to volume.case
wire shy.A0 to out.tip
wire shy.A1 to out.sleeve
`;
const look = { side: 'solder', grounds: 'auto', evenBroken: false } as const;
const rest = { positions: {}, rotations: {} };

/** An editor whose server draws here and writes down each time; `fails` times it stands in by the plain layout. */
async function startDrawing(fails = 0, client: object = {}): Promise<{ editor: Editor; drawn: DrawOptions[] }> {
  const drawn: DrawOptions[] = [];
  const drawHere: DrawInThread = async (_, circuit, options) => {
    drawn.push(options);
    const drawing = await draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);
    return drawn.length > fails ? drawing : { ...drawing, remarks: ['simple layout, because the drawing failed: no time'] };
  };
  const initialize = { initializationOptions: { answersFiles: true, hearsChecked: true, ...client } };
  return { editor: await startEditor({ host: { draw: () => drawHere }, initialize }), drawn };
}

function ask<M extends keyof ServerRequests>(editor: Editor, method: M, params: ServerRequests[M]['params']) {
  return editor.ask<ServerRequests[M]['result']>(method, params);
}

test('where the client shows drawings, something is drawn before anything is opened', async () => {
  const { drawn } = await startDrawing(0, { showsDrawings: true });
  await expect.poll(() => drawn.length).toBe(1);
  expect(drawn[0]).toEqual({ side: 'solder' });
});

test('a circuit that is looked at is drawn beforehand, and each look of it once', async () => {
  const { editor, drawn } = await startDrawing();
  const { uri } = await editor.open('no-31.lug', text);
  await ask(editor, 'lugwork/prepareScene', { uri, ...look });
  expect(drawn).toEqual([{ side: 'solder', grounds: 'auto' }]);
  const [first, second] = await Promise.all([
    ask(editor, 'lugwork/scene', { uri, ...look }),
    ask(editor, 'lugwork/scene', { uri, ...look }),
  ]);
  expect(drawn.length).toBe(1);
  expect(first?.scene).toEqual(second?.scene);
  await ask(editor, 'lugwork/scene', { uri, ...look, side: 'player' });
  await ask(editor, 'lugwork/scene', { uri, ...look });
  expect(drawn.map(({ side }) => side)).toEqual(['solder', 'player']);
  await editor.change(uri, [{ text: text.replace('250k', '500k') }]);
  const changed = await ask(editor, 'lugwork/scene', { uri, ...look });
  expect(drawn.length).toBe(3);
  expect(JSON.stringify(changed?.scene)).toContain('500 kΩ');
});

test('a drawing that was simple layout is tried again', async () => {
  const { editor, drawn } = await startDrawing(1);
  const { uri } = await editor.open('no-31.lug', text);
  const first = await ask(editor, 'lugwork/scene', { uri, ...look });
  const second = await ask(editor, 'lugwork/scene', { uri, ...look });
  expect([first, second].map((one) => one?.remarks.length)).toEqual([1, 0]);
  expect(drawn.length).toBe(2);
});

test('of a broken text nothing is drawn where there is a drawing to keep, and what sounds is the last whole text', async () => {
  const { editor } = await startDrawing();
  const { uri } = await editor.open('no-31.lug', text);
  await ask(editor, 'lugwork/scene', { uri, ...look });
  await editor.change(uri, [{ text: text.replace('wire volume.2', 'wire volume.9') }]);
  const kept = await ask(editor, 'lugwork/scene', { uri, ...look });
  expect(kept).toMatchObject({ faults: 1 });
  expect(kept).not.toHaveProperty('scene');
  expect((await ask(editor, 'lugwork/scene', { uri, ...look, evenBroken: true }))?.scene).toBeDefined();
  const lit = await ask(editor, 'lugwork/overlay', { uri, grounds: 'auto', at: rest });
  expect(lit?.says).toContain('sounds coil');
});

test('controls are told with the part that they are on; what goes back by itself rests', async () => {
  const { editor } = await startDrawing();
  const { uri } = await editor.open('no-31.lug', text);
  const drawn = await ask(editor, 'lugwork/scene', { uri, ...look });
  expect(drawn?.controls.map(({ kind, name, part }) => [kind, name, part])).toEqual([
    ['switch', 'shy', 'part:shy'],
    ['switch', 'choose', 'part:choose'],
    ['shaft', 'volume', 'part:volume'],
  ]);
  expect(drawn?.controls[0]).toMatchObject({ returns: true, rest: 'rest' });
  const parts = drawn?.scene?.parts.map(({ id }) => id);
  expect(drawn?.controls.every(({ part }) => parts?.includes(part))).toBe(true);
});

test('a setting goes by names; names that the circuit has not, and figures beyond the scale, do no harm', async () => {
  const { editor } = await startDrawing();
  const { uri } = await editor.open('no-31.lug', text);
  const heard = async (at: typeof rest): Promise<string | undefined> =>
    (await ask(editor, 'lugwork/overlay', { uri, grounds: 'auto', at }))?.says;
  expect(await heard({ positions: { shy: 'pressed' }, rotations: {} })).toContain('silent');
  expect(await heard({ positions: { choose: '2', unknown: '1' }, rotations: { volume: 99, unknown: 3 } })).toMatch(
    /choose "thin".*sounds coil/,
  );
  const curve = await ask(editor, 'lugwork/response', {
    uri,
    grounds: 'auto',
    at: { positions: {}, rotations: { volume: 0 } },
    points: 20,
  });
  // What is silent is still a figure: a message holds no infinity.
  expect(curve?.db.every((level) => typeof level === 'number' && level < -60)).toBe(true);
  expect(curve?.hz.length).toBe(20);
});

test('what cannot be read is no drawing', async () => {
  const { editor } = await startDrawing();
  expect(await ask(editor, 'lugwork/scene', { uri: 'memory:/none.lug', ...look })).toBeNull();
  expect(await ask(editor, 'lugwork/overlay', { uri: 'memory:/none.lug', grounds: 'auto', at: rest })).toBeNull();
});

test('the page of a circuit holds the drawing that the panel shows, its circuit and its table', async () => {
  const { editor, drawn } = await startDrawing();
  const { uri } = await editor.open('no-31.lug', text);
  const shown = await ask(editor, 'lugwork/scene', { uri, ...look });
  const page = (await ask(editor, 'lugwork/page', { uri }))!;
  expect(drawn).toHaveLength(1);
  expect(page.title).toBe('Alder Lane no. 31');
  const data = readLivePage(page.data);
  if ('problem' in data) throw new Error(data.problem);
  expect(data.scene).toEqual(shown!.scene);
  expect(data.table).toEqual(await ask(editor, 'lugwork/positions', { uri }));
  expect(data.circuit.parts.map(({ name }) => name)).toEqual(['coil', 'shy', 'volume', 'choose', 'thin-cap', 'out']);
  expect(await ask(editor, 'lugwork/page', { uri: 'file:///nowhere/missing.lug' })).toBeNull();
});
