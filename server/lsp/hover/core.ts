/** What core and cover of a pickup lose, as rows of a hover. */
import type { AnalysedCircuit, ElementId, Part } from '../../../language/circuit/index.js';
import { formatQuantity } from '../../../language/grammar/index.js';
import { coreAnswer, type ResponseSummary } from '../../../language/electrics/index.js';

type Row = [string, string];

/** The model in symbols, its figures, and the inductance that acts at the peak. */
export function coreRows(circuit: AnalysedCircuit, coils: readonly ElementId[], peak?: ResponseSummary['peak']): Row[] {
  const core = coreAnswer(circuit, coils);
  if (core === undefined) return [];
  const { loss, eddy, lossy, cover } = core;
  const plain = lossy === undefined ? (eddy === undefined ? 'jωL' : 'jω(L − Le)') : 'K (jω)^n';
  const series = eddy === undefined ? plain : `${plain} + (jωLe ∥ Re)`;
  const figures = [
    ...(lossy === undefined ? [] : [`n ${lossy.exponent}, K ${lossy.factor.toPrecision(4)} Ω·s^n`]),
    ...(eddy === undefined ? [] : [`Le ${formatQuantity(eddy.henry, 'henry')}, Re ${formatQuantity(eddy.ohm, 'ohm')}`]),
    ...(loss === undefined ? [] : [`P ${formatQuantity(loss, 'ohm')}`]),
  ];
  const rows: Row[] = [['model', `R + ${loss === undefined ? series : `(${series}) ∥ P`}: ${figures.join(', ')}`]];
  if (cover !== undefined) {
    const share = Number((100 * cover.share).toPrecision(3));
    rows.push(['cover', `takes up to ${share} % of the voltage, from about ${formatQuantity(cover.hz, 'hertz')} up`]);
  }
  if (peak !== null && peak !== undefined) {
    const acting = formatQuantity(core.at(peak.hz), 'henry');
    const there = formatQuantity(peak.hz, 'hertz');
    rows.push([
      'acting inductance',
      `${acting} at ${there}, the peak on the lead; a meter at 120 Hz reads ${formatQuantity(core.at(120), 'henry')}`,
    ]);
  }
  return rows;
}

/** Where the inductance was found from the peak, how, and why that is the better value. */
export function resonanceRows({ properties: { resonance, 'resonance-load': load } }: Part): Row[] {
  if (resonance === undefined || load === undefined || !('value' in resonance) || !('value' in load)) return [];
  const peak = `the peak at ${formatQuantity(resonance.value, 'hertz')} with ${formatQuantity(load.value, 'farad')}`;
  return [
    [
      'inductance from',
      `${peak}. Core losses lower the inductance towards the peak, so that this is closer to what is heard than a meter at 120 Hz`,
    ],
  ];
}
