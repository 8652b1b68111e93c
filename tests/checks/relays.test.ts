/** Rules that move a switch: a relay follows it wherever its battery then brings it, so what a switch does through a relay counts as what it does. */
import { describe, expect, it } from 'vitest';
import { findingsOf } from './harness.js';

const rulesOf = (text: string): string[] =>
  findingsOf(text)
    .filter(({ rule }) => ['idle-switch', 'loud-kill', 'twin-positions', 'lead-on-common'].includes(rule))
    .map(({ rule, subjects }) => `${rule} ${subjects[0]}`);

/** A pickup whose output a relay joins to `lug` while the push switch closes the circuit of its coil. */
const muted = (lug: string): string => `part bridge : single-coil
part volume : pot 250k audio
part change : relay
part mute   : push-on
part cell   : battery
part output : jack
wire bridge.hot    to volume.3
wire volume.2      to output.tip to change.A0
wire change.A2     to ${lug}
wire bridge.ground to volume.case
wire volume.case   to output.sleeve
solder volume.1    to volume.case
wire cell.plus     to mute.A0
wire mute.A1       to change.coil-a
wire change.coil-b to cell.minus`;

describe('a switch that works through a relay', () => {
  it('silences where the relay shorts the output', () => {
    expect(rulesOf(muted('volume.case'))).toEqual([]);
  });

  it('silences nothing where the relay joins the output to the volume’s input', () => {
    expect(rulesOf(muted('volume.3'))).toEqual(['loud-kill mute']);
  });
});

/** Two pickups on a lever, beside a relay that chooses between two capacitors. */
const lever = (rest: string): string => `part neck   : single-coil 6.1k 2.4H
part bridge : single-coil 6.8k 2.8H
part pick   : lever-3
part change : relay
part call   : spst
part cell   : battery
part small  : capacitor 1nF
part large  : capacitor 10nF
part output : jack
wire neck.hot      to pick.A1
wire bridge.hot    to pick.A2
${rest}
wire pick.A0       to output.tip to small.a to large.a
wire small.b       to change.A1
wire large.b       to change.A2
wire change.A0     to output.sleeve to neck.ground to bridge.ground to pick.frame
wire cell.plus     to call.A0
wire call.A1       to change.coil-a
wire change.coil-b to cell.minus`;

describe('a lever beside a relay', () => {
  it('has twin positions where two throws carry one pickup', () => {
    expect(rulesOf(lever('wire bridge.hot to pick.A3'))).toEqual(['twin-positions pick']);
  });

  it('has none where each position has its pickups', () => {
    expect(rulesOf(lever('wire bridge.hot to pick.A3\nwire neck.hot to pick.B2\nwire pick.B0 to pick.A0'))).toEqual([]);
  });
});
