/** The leads that parts come with: a wire from such a lug is that lead, and looks as it does. */
import type { Lead, LugId, WireLooks } from '../model.js';
import type { Builder } from './builder.js';

/** The part's own lead that a wire between two lugs is, where one of its ends has one. */
export function ownLead({ lugs, instances }: Builder, a: LugId, b: LugId): Lead | undefined {
  for (const lug of [a, b]) {
    const part = lugs[lug]?.part;
    const lead = part === undefined ? undefined : instances[part]?.part.leads?.find((candidate) => candidate.lug === lug);
    if (lead !== undefined) return lead;
  }
  return undefined;
}

/** What the wire says, and of the rest what the lead says. */
export function withLead(looks: WireLooks, lead: Lead | undefined): WireLooks {
  if (lead === undefined) return looks;
  const colour = looks.colour ?? lead.colour;
  const gauge = looks.gauge ?? lead.gauge;
  const make = looks.make ?? lead.make;
  return {
    ...looks,
    ...(colour === undefined ? {} : { colour }),
    ...(gauge === undefined ? {} : { gauge }),
    ...(make === undefined ? {} : { make }),
  };
}
