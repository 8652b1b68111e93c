/** A kill or mute switch that silences nothing. */
import { isMated, partById, type Switch } from '../../circuit/model.js';
import { describeSound, withSwitchMoved } from '../../electrics/index.js';
import type { Statement } from '../../source.js';
import { placeOfPart, type Facts } from '../facts/index.js';
import { isNamedSilent } from '../facts/signal/intended.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, reportsOf } from '../rule.js';
import { idleSwitch } from './idle-switch.js';

interface Claim extends Statement {
  readonly subjects: { readonly switch: string };
}

export const loudKill = defineRule<Claim>({
  id: 'loud-kill',
  severity: 'warning',
  summary: 'a switch called kill or mute that silences nothing',
  describe: ({ subjects, tried }) =>
    `${subjects.switch} silences nothing: with the controls at rest, what is heard is heard in each of its positions${tried === undefined ? '' : `, ${everywhere('every', { tried })}`}`,
  check(facts) {
    const { circuit, signal, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    if (facts.groups().every(({ setting }) => signal.sound(setting).silent)) return [];
    const loud = circuit.switches.filter(
      (device) => isKill(device) && isInUse(facts, device) && !silencesSomething(facts, device),
    );
    // One that does nothing at all is reported as such.
    const idle = new Set(loud.length === 0 ? [] : reportsOf(facts, idleSwitch).map(({ claim }) => claim.subjects?.['switch']));
    return loud
      .filter(({ name }) => !idle.has(name))
      .map((device) => ({
        claim: { subjects: { switch: device.name }, ...triedIn(facts) },
        why: 'A kill switch joins the output to ground, or opens the signal. One that joins the output to the input of a volume only turns the volume up.',
        range: placeOfPart(circuit, device.part),
        subjects: [device.name],
      }));
  },
});

/** By its name, or that of one of its positions. */
function isKill({ name, positions }: Switch): boolean {
  return (
    /(^|[^a-z])(kill|mute|stutter)(-?switch|-?button)?([^a-z]|$)/i.test(name) ||
    positions.some(({ label }) => isNamedSilent(label))
  );
}

function isInUse({ circuit, joined }: Facts, device: Switch): boolean {
  if (partById(circuit, device.part).family === 'jack' || isMated(circuit, device)) return false;
  return device.positions.some(({ joins }) => joins.some((contact) => contact.some((lug) => joined.isWired(lug))));
}

/** True where some position of the switch takes away a coil that another one lets through, at any output, the other switches as they are. */
function silencesSomething({ circuit, signal, groups }: Facts, device: Switch): boolean {
  return signal.views().some((view, index) => {
    const heardAt = (setting: Parameters<typeof signal.sound>[0]): readonly number[] =>
      (index === 0 ? signal.sound(setting) : describeSound(view.circuit, view.at(setting))).heard.map(({ coil }) => coil);
    return groups().some(({ setting }) => {
      const [first = [], ...others] = device.positions.map((_, at) => heardAt(withSwitchMoved(circuit, setting, device.id, at)));
      return others.some((heard) => heard.length !== first.length || heard.some((coil) => !first.includes(coil)));
    });
  });
}
