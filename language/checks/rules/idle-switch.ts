/** A switch that changes nothing, however the others stand. */
import { isMated, lugById, partById, type Switch } from '../../circuit/model.js';
import { withSwitchMoved } from '../../electrics/index.js';
import { placeOfPart, type Facts } from '../facts/index.js';
import { createComparison, type Comparison } from '../facts/signal/comparison.js';
import { defineRule, type Report } from '../rule.js';
import type { Steps } from '../../steps.js';
import { isOpenPole } from '../facts/wiring/open-poles.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly switch: string };
}

export const idleSwitch = defineRule<Claim>({
  id: 'idle-switch',
  severity: 'warning',
  summary: 'a switch that changes nothing in any combination of the others',
  describe: ({ subjects }) =>
    `${subjects.switch} changes nothing: the signal is the same in all its positions, wherever the other switches are set`,
  *checkSteps(facts): Steps<readonly Report<Claim>[]> {
    const { circuit, signal, joined, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || signal.neverHeard().size > 0 || !facts.triedAll())
      return [];
    if (facts.groups().every(({ setting }) => signal.sound(setting).silent)) return [];
    const compare = createComparison(facts);
    const judged = circuit.switches
      .filter((device) => partById(circuit, device.part).family !== 'jack' && !isMated(circuit, device) && isInUse(facts, device))
      .filter((device) => !facts.poles().some((pole) => pole.device === device && isOpenPole(facts, pole)))
      .filter((device) => !movesMoreThanSound(facts, device))
      .filter((device) => device.positions.length > 1);
    const idle: Switch[] = [];
    for (const device of judged) if (!(yield* changesSomething(facts, device, compare))) idle.push(device);
    return idle.map((device) => ({
      claim: { subjects: { switch: device.name } },
      why: 'Its lugs are wired, but it switches nothing in or out. Often both throws carry the same signal, or a wire bypasses the switch.',
      range: placeOfPart(circuit, device.part),
      subjects: [
        device.name,
        ...partById(circuit, device.part)
          .lugs.filter((lug) => joined.isWired(lug))
          .map((lug) => lugById(circuit, lug).label),
      ],
    }));
  },
});

/** The switch of a push-pull pot may be left unused. */
function isInUse({ joined }: Facts, device: Switch): boolean {
  return device.positions.some((position) => position.joins.some((contact) => contact.some((lug) => joined.isWired(lug))));
}

/** Switches of a supply, or of metal (a screen, the strings), do their work unheard. */
function movesMoreThanSound({ circuit, joined }: Facts, device: Switch): boolean {
  const sleeve = circuit.output === undefined ? -1 : joined.classOf(circuit.output.sleeve);
  const classes = new Set(device.positions.flatMap((position) => position.joins.flat()).map((lug) => joined.classOf(lug)));
  classes.delete(sleeve);
  const supplies = circuit.elements.flatMap((element) =>
    element.kind === 'battery' ? [element.a, element.b] : element.kind === 'gain' ? [element.plus, element.minus] : [],
  );
  return (
    supplies.some((lug) => classes.has(joined.classOf(lug))) ||
    circuit.lugs.some((lug) => lug.metal && classes.has(joined.classOf(lug.id)))
  );
}

function* changesSomething(facts: Facts, device: Switch, isSame: Comparison): Steps<boolean> {
  const settings =
    device.rest === undefined
      ? facts.settings().filter((setting) => setting.positions[device.id] === 0)
      : facts.groups().map(({ setting }) => setting);
  for (const setting of settings) {
    for (const index of device.positions.keys()) {
      yield;
      if (!isSame(setting, withSwitchMoved(facts.circuit, setting, device.id, index))) return true;
    }
  }
  return false;
}
