/** The `expect` lines of a circuit as tests: which there are, and which hold. */
import { describeFound } from '../../../language/checks/index.js';
import type { AnalysedCircuit, Circuit, Expectation } from '../../../language/circuit/index.js';
import { evaluateSteps, type ClaimResult } from '../../../language/intent/index.js';
import { visible } from '../../../language/grammar/index.js';
import type { Steps } from '../../../language/steps.js';
import type { SourceRange } from '../../../language/source.js';
import type { ClaimOutcome, ExpectationItem, ExpectationOutcome } from '../../protocol.js';
import { textIn } from '../places.js';

/** All `expect` lines of the circuit's own file, in its order. */
export function expectationItems(circuit: Circuit, text: string): ExpectationItem[] {
  return own(circuit).map(({ range }) => ({
    label: textOf(text, range)
      .replace(/^expect\b\s*:?/, '')
      .replace(/\s+/g, ' ')
      .trim(),
    range,
  }));
}

/** Whether they hold; those whose statement begins on one of the lines, or all. */
export function* outcomeSteps(circuit: AnalysedCircuit, text: string, lines?: readonly number[]): Steps<ExpectationOutcome[]> {
  const wanted = own(circuit).filter(({ range }) => lines === undefined || lines.includes(range.start.line));
  const outcomes: ExpectationOutcome[] = [];
  for (const expectation of wanted) {
    const claims = (yield* evaluateSteps(circuit, expectation)).map((result) => outcome(result, text));
    const { range } = expectation;
    outcomes.push({ range, setting: settingOf(text, expectation), held: claims.every(({ held }) => held), claims });
    yield;
  }
  return outcomes;
}

/** What an `expect` line says before its claims. */
function settingOf(text: string, { range, claims: [first] }: Expectation): string {
  const end = first?.range.start ?? range.end;
  return textOf(text, { ...range, end })
    .replace(/^expect\b\s*/, '')
    .replace(/\s*:\s*$/, '')
    .replace(/\s+(,?)/g, '$1 ')
    .replace(/,\s*/g, ', ')
    .trim();
}

function own(circuit: Circuit): Circuit['expectations'] {
  return circuit.expectations.filter(({ range }) => range.uri === circuit.uri);
}

function outcome({ claim, verdict, outcomes }: ClaimResult, text: string): ClaimOutcome {
  const so = [...new Set(outcomes.filter((one) => one.verdict !== 'held').map(({ found }) => describeFound(found)))];
  return {
    text: textOf(text, claim.range),
    range: claim.range,
    held: verdict === 'held',
    ...(verdict === 'held' ? {} : { instead: so.join('; ') }),
  };
}

function textOf(text: string, range: SourceRange): string {
  return visible(textIn(text, range));
}
