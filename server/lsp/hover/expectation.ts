/** Hover on an expectation: each claim, held or what is so instead. */
import { describeFound } from '../../../language/checks/index.js';
import type { Steps } from '../../../language/steps.js';
import type { AnalysedCircuit, Expectation } from '../../../language/circuit/index.js';
import { settingLabel } from '../../../language/electrics/index.js';
import { escapeMarkdown } from '../../../language/escape.js';
import { evaluateSteps } from '../../../language/intent/index.js';
import { textIn } from '../places.js';
import { code, paragraphs, plain, table } from './markdown.js';

/** Of more settings than this only a few are listed. */
const mostListed = 6;

export function* expectationHover(circuit: AnalysedCircuit, expectation: Expectation, text: string): Steps<string> {
  const rows = (yield* evaluateSteps(circuit, expectation)).map(({ claim, verdict, outcomes }) => {
    const wrong = outcomes.filter((outcome) => outcome.verdict !== 'held');
    const listed = wrong.slice(0, mostListed).map(({ found, setting }) => {
      const so = describeFound(found);
      const where = settingLabel(circuit, setting);
      return outcomes.length > 1 && where !== '' ? `${escapeMarkdown(so)} (at ${code(where)})` : escapeMarkdown(so);
    });
    const more = wrong.length > listed.length ? ` and ${wrong.length - listed.length} more` : '';
    const said = code(textIn(text, claim.range).replace(/\s+/g, ' '));
    if (verdict === 'held') return [said, outcomes.length === 0 ? 'no setting applies' : 'met'];
    return [said, `${verdict === 'failed' ? 'not met' : 'can’t be checked'}: ${listed.join('; ')}${more}`];
  });
  const doc = expectation.doc === undefined ? undefined : plain(expectation.doc);
  return paragraphs(doc, table([['claim', ''], ...rows]));
}
