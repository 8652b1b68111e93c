/** `sheet --list` without a format, and what `expect` says of a dead circuit and of buttons. */
import { expect, test } from 'vitest';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

const circuit = `instrument "Alder Lane no. 9"
part bridge : single-coil 6.8k 2.8H 115pF
part volume : pot 250k audio
part kill   : push-on
part saddle : bridge-ground
part output : jack
wire bridge.hot    to volume.3
wire bridge.ground to volume.case
wire volume.2      to output.tip white
solder volume.1    to volume.case
wire saddle        to volume.case black
wire volume.case   to output.sleeve black
wire kill.A0       to output.tip
wire kill.A1       to output.sleeve
wire kill.frame    to output.sleeve
`;
const dead = circuit.replace('wire volume.2      to output.tip white\n', '');

test('`sheet --list` alone writes that list as CSV', async () => {
  const folder = folderWith({ 'a.lug': circuit });
  const { code, out } = await inProcessAsync(['sheet', 'a.lug', '--list', 'parts'], folder);
  expect(code).toBe(0);
  expect(out.split('\n')[0]).toBe('quantity,part,values,used_as');
  expect(out).toContain('pot');
});

test('a list in another format is refused, not left out', async () => {
  const folder = folderWith({ 'a.lug': circuit });
  const { code, out, err } = await inProcessAsync(['sheet', 'a.lug', '--list', 'parts', '--format', 'html'], folder);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain('--list writes one list as CSV');
});

test('`expect` prints nothing for a circuit that is silent everywhere, unless forced', () => {
  const folder = folderWith({ 'a.lug': dead });
  const { code, out, err } = inProcess(['expect', 'a.lug'], folder);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain('a.lug is silent in every position');
  expect(inProcess(['expect', 'a.lug', '--force'], folder)).toMatchObject({
    code: 0,
    out: expect.stringContaining('silent') as string,
  });
});

test('`expect --turns` states a button as well', () => {
  const folder = folderWith({ 'a.lug': circuit });
  expect(inProcess(['expect', 'a.lug', '--turns'], folder).out).toMatch(/^expect kill pressed +: silent, reads short$/m);
});
