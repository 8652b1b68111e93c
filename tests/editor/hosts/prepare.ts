/** Makes the machine ready before any test starts: all missing programs in one go, then the editor hosts. */
import { findDesktop } from './desktop-host.js';
import { findNeed, installPrograms, missingSentence, type Need } from './needs.js';
import { installNodeHost, isNodeHostInstalled, nodeHostNeeds } from './node-install.js';
import type { HostName } from './host.js';
import { installWebHost, isWebHostInstalled } from './web-install.js';

/** What a run may need: a browser for a page, or an editor on one of its hosts. A desktop editor is never installed. */
export type Part = 'browser' | HostName;

/** The parts that can't run, each with the reason. */
export type Unready = ReadonlyMap<Part, string>;

const hosts = {
  node: { install: installNodeHost, isInstalled: isNodeHostInstalled },
  web: { install: installWebHost, isInstalled: isWebHostInstalled },
};

/** What a whole run tries: the desktop editor where one is installed, else VS Code's server; and always the web worker. */
export function usualHosts(): HostName[] {
  return [findDesktop() === undefined ? 'node' : 'desktop', 'web'];
}

/** What of the editor's tests a run takes in; `tests/scripts/tiers.mjs` says which test files. */
export type Tier = 'usual' | 'long' | 'all';

export function isTier(word: string): word is Tier {
  return word === 'usual' || word === 'long' || word === 'all';
}

/** The editors in which a tier runs the suite: the usual one in the first, the long one in the others. */
export function tierHosts(tier: Tier): HostName[] {
  const [first, ...others] = usualHosts();
  return [...(tier === 'long' ? [] : [first!]), ...(tier === 'usual' ? [] : others)];
}

/** What a tier needs. The pictures are taken on both hosts, whichever editor runs the suite. */
export function tierParts(tier: Tier): Part[] {
  return [...new Set<Part>([...tierHosts(tier), ...(tier === 'usual' ? [] : (['node', 'web'] as const))])];
}

/** Installs what the parts need, says what can't be installed, and gives the parts that can't run. */
export async function prepare(parts: readonly Part[]): Promise<Unready> {
  const missing = await installPrograms([...new Set(parts.flatMap(needsOf))], 'the tests in a browser and in an editor');
  if (missing.length > 0) console.log(`${missingSentence(missing)} Whatever needs this is not run and counts as failed.`);
  for (const [part, host] of Object.entries(hosts)) {
    if (!parts.some((wanted) => wanted === part) || lackingOf(part as Part).length > 0) continue;
    await host
      .install()
      .catch((error: Error) => console.log(`The editor for the suite "${part}" could not be installed: ${error.message}`));
  }
  return readiness(parts);
}

/** The parts that can't run as the machine is. Installs nothing. */
export function readiness(parts: readonly Part[]): Unready {
  const unready = new Map<Part, string>();
  for (const part of parts) {
    const lacking = lackingOf(part);
    if (lacking.length > 0) unready.set(part, `${lacking.join(' and ')} missing`);
    else if ((part === 'node' || part === 'web') && !hosts[part].isInstalled())
      unready.set(part, 'its editor could not be installed');
  }
  return unready;
}

function lackingOf(part: Part): Need[] {
  return needsOf(part).filter((need) => findNeed(need) === undefined);
}

function needsOf(part: Part): Need[] {
  if (part === 'desktop') return [];
  // One of the pictures finds the process of the language server by `ps`.
  return part === 'node' ? ['chromium', 'ps', ...nodeHostNeeds()] : ['chromium'];
}
