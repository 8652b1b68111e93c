/** What `expect` and `measured` set: switches to positions, shafts to rotations. */
import { firstOf } from '../../collections.js';
import type { SettingNode, Word } from '../../grammar/index.js';
import { nearest, oneEditAway } from '../../nearest.js';
import type { SourceRange } from '../../source.js';
import { recordUse, report, reportMisspelling, type Naming } from './lowering-state.js';
import type { Instance } from './builder.js';
import type { ControlSetting, Shaft, ShaftId, Switch } from '../model.js';
import { nameList } from '../phrases.js';
import { readValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { partNamed } from './resolve.js';

/** What settings are made from: the names of an instrument and its controls. */
export interface Controls extends Naming {
  readonly builder: { readonly shafts: readonly Pick<Shaft, 'name'>[]; readonly switches: readonly Switch[] };
}

/** The settings of one statement; `undefined` where one can't be made, for a claim about another setting would be wrong. */
export function makeSettings(state: Controls, nodes: readonly SettingNode[], origin: Origin): ControlSetting[] | undefined {
  const settings: ControlSetting[] = [];
  let whole = true;
  for (const node of nodes) {
    const setting = makeSetting(state, node, origin);
    if (setting === undefined) {
      whole = false;
      continue;
    }
    const before = settings.find((other) => isSameControl(other, setting));
    if (before === undefined) {
      settings.push(setting);
    } else {
      whole = false;
      report(state, 'setting', setting.range, `${node.control.path.map((word) => word.text).join('.')} is set twice here`, {
        related: [{ message: 'the other setting', range: before.range }],
      });
    }
  }
  return whole ? settings : undefined;
}

function makeSetting(state: Controls, node: SettingNode, origin: Origin): ControlSetting | undefined {
  const found = partNamed(state, node.control.path, origin);
  if (found === undefined || isMissing(node.position)) return undefined;
  const { instance, rest } = found;
  const range = rangeOn(origin, node.range);
  const [word, more] = rest;
  if (word !== undefined) return more === undefined ? shaftByName(state, instance, word, node, origin) : undefined;
  const control = instance.switch === undefined ? undefined : state.builder.switches[instance.switch];
  const shafts = [...instance.shafts.values()];
  if (shafts.length > 0 && isNumber(node.position)) {
    if (shafts.length === 1) return rotation(state, firstOf(shafts), node.position, range, origin);
    const names = [...instance.shafts.keys()].map((name) => `${instance.part.name}.${name}`);
    report(state, 'setting', range, `${instance.part.name} has more than one shaft: write ${nameList(names)}`);
    return undefined;
  }
  if (control !== undefined) return position(state, control, instance, node, origin);
  if (shafts.length > 0) {
    report(
      state,
      'setting',
      rangeOn(origin, node.position.range),
      `\`${node.position.text}\` is not a rotation; ${instance.part.name} turns from 0 to 10`,
    );
  } else if (instance.part.untyped !== true) {
    report(
      state,
      'setting',
      rangeOn(origin, node.control.range),
      `${instance.part.name} (${instance.part.type}) is neither a switch nor a pot, so it can’t be set`,
    );
  }
  return undefined;
}

/** `blend.a 7`. */
function shaftByName(
  state: Controls,
  instance: Instance,
  word: Word,
  node: SettingNode,
  origin: Origin,
): ControlSetting | undefined {
  const shaft = instance.shafts.get(word.text);
  if (shaft !== undefined) return rotation(state, shaft, node.position, rangeOn(origin, node.range), origin);
  if (instance.part.untyped === true) return undefined;
  const names = [...instance.shafts.keys()].filter((name) => name !== '');
  const has = names.length === 0 ? 'has one shaft at most' : `has the shafts ${nameList(names)}`;
  reportMisspelling(
    state,
    'unknown-name',
    rangeOn(origin, word.range),
    `${instance.part.name} ${has}, but none called ${word.text}`,
    {
      word: word.text,
      among: names,
    },
  );
  return undefined;
}

function rotation(state: Controls, shaft: ShaftId, word: Word, range: SourceRange, origin: Origin): ControlSetting | undefined {
  const wordRange = rangeOn(origin, word.range);
  const reading = readValue(word);
  const name = state.builder.shafts[shaft]?.name ?? '';
  if (reading?.unit !== 'count') {
    report(state, 'setting', wordRange, `\`${word.text}\` is not a rotation; ${name} turns from 0 to 10`);
  } else if (reading.value < 0 || reading.value > 10) {
    report(state, 'setting', wordRange, `${word.text} is out of range; ${name} turns from 0 to 10`);
  } else {
    return { kind: 'shaft', shaft, rotation: reading.value, range };
  }
  return undefined;
}

function position(
  state: Controls,
  control: Switch,
  instance: Instance,
  { position: word, range }: SettingNode,
  origin: Origin,
): ControlSetting | undefined {
  const wordRange = rangeOn(origin, word.range);
  const index = positionIndex(control, word);
  const found = control.positions[index];
  if (found === undefined) {
    const names = control.positions.map((candidate) => (isQuoted(candidate) ? `"${candidate.label}"` : candidate.label));
    const count = control.positions.length;
    const has = names.every((name, i) => name === String(i + 1)) ? `it has 1 to ${count}` : `it has ${nameList(names)}`;
    const message = `${control.name} has no position ${word.kind === 'string' ? `"${word.text}"` : word.text}; ${has}`;
    const labels = control.positions.map((candidate) => candidate.label);
    const { problems } = state.reports.of(origin.uri);
    if (isNumber(word)) problems.add('setting', wordRange, message);
    else {
      const meant = nearest(word.text, labels);
      const isSure = oneEditAway(word.text, labels) === meant;
      problems.addOffer('unknown-name', wordRange, message, names[labels.indexOf(meant ?? '')], isSure);
    }
    return undefined;
  }
  recordUse(state, {
    kind: 'position',
    range: wordRange,
    name: word.text,
    part: instance.part.id,
    ...(found.range === undefined ? {} : { definition: found.range }),
  });
  return { kind: 'switch', switch: control.id, position: index, range: rangeOn(origin, range) };
}

/** A number is the position's place in the type's order, a bare word the type's name, text in quotes the user's name; either also finds the other. */
function positionIndex(control: Switch, word: Word): number {
  if (isNumber(word)) return Number(word.text) - 1;
  const byLabel = control.positions.findIndex((candidate) => candidate.label === word.text);
  const byKey = control.positions.findIndex((candidate) => candidate.key === word.text);
  const [first, second] = word.kind === 'string' ? [byLabel, byKey] : [byKey, byLabel];
  return first >= 0 ? first : second;
}

function isNumber(word: Word): boolean {
  return word.kind === 'value' && readValue(word)?.unit === 'count';
}

/** A name that people gave stands in quotes; a type's own bare name doesn't. */
function isQuoted(candidate: Switch['positions'][number]): boolean {
  return candidate.label !== candidate.key;
}

function isSameControl(a: ControlSetting, b: ControlSetting): boolean {
  if (a.kind === 'switch') return b.kind === 'switch' && a.switch === b.switch;
  return b.kind === 'shaft' && a.shaft === b.shaft;
}
