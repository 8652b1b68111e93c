/** What the program holds against a drawn circuit: nothing, if both are right. */
import { faultsOf } from '../../language/intent/index.js';
import { createProject } from '../../language/project.js';
import type { Practice } from './index.js';

const uri = 'practice:/drawn.lug';

/** A false alarm that a rule is known to give on correct circuits of a family, and why it is false. To be taken out when the rule is corrected. */
export interface KnownAlarm {
  readonly rule: string;
  readonly family: string;
  readonly why: string;
}

export const knownAlarms: readonly KnownAlarm[] = [];

export interface Alarm {
  readonly says: string;
  readonly known?: KnownAlarm;
}

/** Problems of the text, errors and warnings; first without any intent, then with the lines that state what sounds. */
export function alarmsOf({ text, thin, families }: Practice): readonly Alarm[] {
  return [text, `${text}${thin.join('\n')}\n`].flatMap((whole, index) => {
    const circuit = createProject({ read: () => whole }).circuit(uri)!;
    const intent = index === 0 ? 'unstated' : 'stated';
    const faults = faultsOf(circuit).map(({ rule, message }): Alarm => {
      const known = knownAlarms.find((alarm) => alarm.rule === rule && families.includes(alarm.family));
      return { says: `${intent}: ${rule}: ${message}`, ...(known === undefined ? {} : { known }) };
    });
    return [...circuit.problems.map(({ message }): Alarm => ({ says: `${intent}: ${message}` })), ...faults];
  });
}

/** Those that nothing excuses. */
export function unknownAlarms(practice: Practice): readonly string[] {
  return alarmsOf(practice).flatMap(({ says, known }) => (known === undefined ? [says] : []));
}
