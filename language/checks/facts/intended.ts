/** Which positions an `expect` line speaks of, pots at rest: what is asked for is no mistake. */
import type { Circuit, Claim, Expectation } from '../../circuit/model.js';
import { settingsMatching, type Setting } from '../../electrics/index.js';
import { lazy } from './lazy.js';

export interface Intended {
  /** True where an expectation with a claim of that kind covers the setting. */
  asks(setting: Setting, kind: Claim['kind']): boolean;
}

export function createIntended(circuit: Circuit): Intended {
  const covered = lazy(() => {
    const settings = new Map<Claim['kind'], Set<string>>();
    for (const expectation of circuit.expectations) {
      if (!isAtRest(circuit, expectation)) continue;
      const keys = settingsMatching(circuit, expectation.settings).map(({ positions }) => positions.join());
      for (const { kind } of expectation.claims) settings.set(kind, new Set([...(settings.get(kind) ?? []), ...keys]));
    }
    return settings;
  });
  return { asks: (setting, kind) => covered().get(kind)?.has(setting.positions.join()) ?? false };
}

function isAtRest(circuit: Circuit, expectation: Expectation): boolean {
  return expectation.settings.every((set) => set.kind === 'switch' || circuit.shafts[set.shaft]!.rest === set.rotation);
}
