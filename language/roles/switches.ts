/** What speaks for the role of a switch: its name, its type, the names of its positions, and whose leads are on it. Common practice. */
import {
  type AnalysedCircuit,
  derivation,
  derive,
  elementById,
  lugById,
  partById,
  type LugId,
  type Switch,
} from '../circuit/model.js';
import { rolesNamed, tokensOf } from './names.js';
import type { Evidence, SwitchRole } from './role.js';
import { surroundingsOf } from './surroundings.js';

export function evidenceOfSwitch(circuit: AnalysedCircuit, device: Switch): readonly Evidence[] {
  return [...named(circuit, device), ...byType(circuit, device), ...byPositions(circuit, device), ...byLeads(circuit, device)];
}

/** The name of a pot that has a switch as well speaks for the pot. */
function named(circuit: AnalysedCircuit, device: Switch): readonly Evidence[] {
  const part = partById(circuit, device.part);
  const words = rolesNamed('switch', part.name);
  const [word] = words;
  if (word === undefined) return [];
  return [{ word, weight: part.family === 'control' ? 2 : 4, says: `it is called ${part.name}` }];
}

function byType(circuit: AnalysedCircuit, device: Switch): readonly Evidence[] {
  const { ancestry } = partById(circuit, device.part);
  if (ancestry.some((name) => /^(lever|toggle)-/.test(name)))
    return [{ word: 'selector', weight: 2, says: 'switches of its type usually choose pickups' }];
  if (device.rest !== undefined) return [{ word: 'kill', weight: 2, says: 'it springs back' }];
  return device.positions.length > 3
    ? [{ word: 'selector', weight: 1, says: `it has ${device.positions.length} positions` }]
    : [];
}

const positionWords: readonly (readonly [SwitchRole, readonly string[]])[] = [
  ['series', ['series', 'parallel']],
  ['split', ['split', 'coil', 'single', 'north', 'south', 'screw', 'slug', 'full', 'humbucker']],
  ['phase', ['phase', 'reversed']],
  ['tap', ['tap', 'tapped']],
  ['mute', ['mute', 'muted', 'play']],
  ['standby', ['standby', 'battery']],
  ['bypass', ['bypass', 'direct', 'straight']],
];

/** The words in the names of all pickups. */
export function pickupTokens(circuit: AnalysedCircuit): ReadonlySet<string> {
  return derive(circuit, pickupNames);
}

const pickupNames = derivation(
  ['text'],
  ({ parts }): ReadonlySet<string> => new Set(parts.flatMap(({ family, name }) => (family === 'pickup' ? tokensOf(name) : []))),
);

function byPositions(circuit: AnalysedCircuit, device: Switch): readonly Evidence[] {
  const tokens = device.positions.flatMap(({ label }) => tokensOf(label));
  const names = pickupTokens(circuit);
  const found: Evidence[] = [];
  if (new Set(tokens.filter((token) => names.has(token))).size > 1)
    found.push({ word: 'selector', weight: 4, says: 'its positions are named after pickups' });
  for (const [word, words] of positionWords)
    if (tokens.some((token) => words.includes(token)))
      found.push({ word, weight: 2.5, says: 'so the names of its positions say' });
  return found;
}

function byLeads(circuit: AnalysedCircuit, device: Switch): readonly Evidence[] {
  const { classOf, elementsOn, ground, tip } = surroundingsOf(circuit);
  const lugs = new Set(device.positions.flatMap(({ joins }) => joins.flat()));
  const classes = new Set([...lugs].map(classOf));
  const leads = [...classes].flatMap((classId) =>
    classId === ground ? [] : elementsOn(classId).flatMap((element) => (element.kind === 'coil' ? [element] : [])),
  );
  const found: Evidence[] = [];
  const pickups = new Set(leads.map(({ part }) => part));
  if (pickups.size > 1) found.push({ word: 'selector', weight: 1.5, says: `leads of ${pickups.size} pickups are on it` });
  for (const part of pickups) {
    const coils = partById(circuit, part).elements.filter((id) => elementById(circuit, id).kind === 'coil');
    const isInside = (lug: LugId): boolean => !isOuterEnd(circuit, lug);
    const ends = leads.filter((coil) => coil.part === part).flatMap(({ a, b }) => [a, b]);
    const onIt = ends.filter((lug) => classes.has(classOf(lug)) && classOf(lug) !== ground);
    if (coils.length > 1 && onIt.some(isInside))
      found.push({ word: 'split', weight: 1.5, says: 'the joint between the coils of a pickup is on it' });
    else if (coils.length === 1 && new Set(onIt.map(classOf)).size > 1)
      found.push({ word: 'phase', weight: 1.5, says: 'both leads of a pickup are on it' });
  }
  if (classes.has(tip) && classes.has(ground))
    found.push({ word: device.rest === undefined ? 'mute' : 'kill', weight: 1, says: 'output and ground are on it' });
  if ([...classes].some((classId) => elementsOn(classId).some(({ kind }) => kind === 'battery')))
    found.push({ word: 'standby', weight: 2, says: 'a lead of the battery is on it' });
  return found;
}

/** True for the lead called hot or ground; the others lead to where coils meet. */
function isOuterEnd(circuit: AnalysedCircuit, lug: LugId): boolean {
  return /^(hot|ground|north-start|south-start)$/.test(lugById(circuit, lug).name);
}
