/** Versions whose text has errors: a statement that can't be read may be the one that matters. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { counted } from '../../circuit/index.js';
import { firstOf } from '../../collections.js';
import type { Unread } from '../change.js';

export function unreadIn(circuit: AnalysedCircuit, version: Unread['version']): readonly Unread[] {
  const errors = circuit.problems.filter(({ severity }) => severity === 'error');
  if (errors.length === 0) return [];
  const { message, range } = firstOf(errors);
  const file = range.uri === circuit.uri ? '' : ` of ${decodeURIComponent(range.uri.slice(range.uri.lastIndexOf('/') + 1))}`;
  const says = `the ${version} version has ${counted(errors.length, 'error')} in its text, so part of it is not compared; line ${range.start.line + 1}${file}: ${message}`;
  return [{ version, errors: errors.length, message, range, says }];
}

/** The first thing that is said of such a comparison. */
export function incomplete(unread: readonly Unread[]): string {
  const versions = unread.map(({ version, errors }) => `${counted(errors, 'error')} in the text of the ${version} version`);
  return `incomplete comparison: ${versions.join(', ')}`;
}
