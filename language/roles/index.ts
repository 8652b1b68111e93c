/** Roles: what each part and each lug is for, with the evidence; usual practice as data. Knows circuits and electrics. */
export { isOneSlip, nearestArrangement, orders, parallel, patterns, type OddPosition, type Pattern } from './arrangements.js';
export { rolesOf, rolesOfPart } from './infer.js';
export { pickupsNamed } from './position-names.js';
export { isPickupWord, kindOfType, kindsNamed, rolesNamed, tokensOf, type NamedKind } from './names.js';
export { pickupsNamedBy, wholePickups } from './pickups.js';
export { pickupTokens } from './switches.js';
export type { Confidence, PassiveRole, PickupRole, PotRole, Role, RoleWord, SwitchRole, Unit } from './role.js';
export { isLike, lugsOfTrack, matchTracks, tracksOf, type TrackMatch } from './practice.js';
export { connectionOf, type Connected, type Connection, type Departure } from './connections.js';
export type { PracticeMatch } from './fit.js';
export { matchPart, matchUnit, patternsOf, type PartMatch } from './match.js';
export { matchLeads } from './match-leads.js';
export { matchLugs } from './match-lugs.js';
export { matchPoles } from './match-poles.js';
export type {
  Company,
  Ground,
  LeadsPattern,
  LugsPattern,
  NamedPattern,
  PolePattern,
  PolesPattern,
  Practice,
  TrackPattern,
  TrackSides,
} from './practice-table.js';
export { contactsOf, spread } from './spread.js';
export { departureText, joinedTo, lugsText, roleText, unitName } from './words.js';
export { surroundingsOf, type Side, type Surroundings } from './surroundings.js';
