/** Roles: what each part and each lug is for, with the evidence; usual practice as data. Knows circuits and electrics. */
export { orders, parallel, patterns, type Pattern } from './arrangements.js';
export { rolesOf, rolesOfPart } from './infer.js';
export { pickupsNamed } from './position-names.js';
export { isPickupWord, tokensOf } from './names.js';
export { wholePickups } from './pickups.js';
export type { Confidence, PassiveRole, PickupRole, PotRole, Role, RoleWord, SwitchRole, Unit } from './role.js';
export {
  isLike,
  lugsOfTrack,
  matchTracks,
  patternsOf,
  tracksOf,
  type Practice,
  type TrackMatch,
  type TrackPattern,
  type TrackSides,
} from './practice.js';
export { lugsText, roleText, unitName } from './words.js';
export { surroundingsOf, type Side, type Surroundings } from './surroundings.js';
