/** How thick a wire is outside, for what has to pass a drilled hole. */
import { wireDiameter } from '../../circuit/index.js';
import type { BuildSettings } from '../build-settings.js';

/** Outside diameters of hook-up wire in metres: 300 V PVC (UL 1007), nominal, from memory. */
const OUTSIDE: Readonly<Record<number, number>> = { 22: 0.00157, 24: 0.00142, 26: 0.0013 };

/** What insulation adds to the conductor where the table has no row: as much as at 22 gauge. */
const INSULATION = 0.00093;

/** Outside diameter of an insulated wire in metres; a bare one is as thick as its conductor. */
export function outsideDiameter(gauge: number, bare = false): number {
  if (bare) return wireDiameter(gauge);
  return OUTSIDE[gauge] ?? wireDiameter(gauge) + INSULATION;
}

/** The same for a run of the circuit: shielded wire, a pickup's own lead and wire off the reel each by its rule. */
export function runDiameter(
  run: { readonly gauge?: number; readonly bare: boolean; readonly shielded: boolean; readonly ownLead: boolean },
  settings: BuildSettings,
): number {
  if (run.shielded) return settings.shielded;
  if (run.ownLead && run.gauge === undefined) return settings.lead;
  return outsideDiameter(run.gauge ?? settings.gauge, run.bare);
}
