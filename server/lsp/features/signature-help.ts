/** What a part's type takes, while a part is being written, with the argument that is being typed marked. */
import type { ParameterInformation, SignatureHelp } from 'vscode-languageserver';
import { isSign, parseValue, type Token } from '../../../language/grammar/index.js';
import { type ParameterInfo, type TypeInfo, typesOf } from '../../../language/circuit/index.js';
import { braceAt } from '../completion/braces.js';
import { markdown } from '../completion/item.js';
import { openParameters } from '../completion/part.js';
import { quantityText } from '../hover/figures.js';
import { paragraphs, plain } from '../hover/markdown.js';
import { textIn } from '../places.js';
import { typingAt, type Typing } from '../typing.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const signatureHelp: Feature = {
  capabilities: { signatureHelpProvider: { triggerCharacters: [' ', '{', ','], retriggerCharacters: [' ', ','] } },
  register(service) {
    service.connection.onSignatureHelp(
      onDocument(service, 'signature', null, (at, { position }) => {
        const typing = typingAt(at, position);
        return typing?.head === 'part' ? signatureOf(at, typing) : null;
      }),
    );
  },
};

function signatureOf({ circuit, text }: Snapshot, typing: Typing): SignatureHelp | null {
  const { before, range } = typing;
  const word = textIn(text, range);
  const colon = before.findIndex((token) => isSign(token, ':'));
  const type = colon < 0 ? undefined : typesOf(circuit).find(({ name }) => name === before[colon + 1]?.image);
  if (type === undefined || type.parameters.length === 0) return null;
  const brace = braceAt(before, range.start.line);
  // Where leads are named, nothing of the type is typed.
  if (brace === undefined && before.slice(colon + 2).some(({ image }) => image === 'from' || image === 'across')) return null;
  const active =
    brace === undefined
      ? bare(type, before.slice(colon + 2), word)
      : type.parameters.find(({ name }) => name === (brace.name ?? word));
  return written(type, active);
}

/** The parameter that a bare word or value goes to, or the next one that is open. */
function bare(type: TypeInfo, given: readonly Token[], word: string): ParameterInfo | undefined {
  const open = openParameters(type, given);
  if (word === '') return open[0];
  const unit = parseValue(word)?.unit;
  return open.find(
    (parameter) =>
      parameter.choices.some((choice) => choice.startsWith(word)) || (parameter.kind === 'value' && parameter.unit === unit),
  );
}

/** `pot 250 kΩ linear|audio|reverse-audio …`, each parameter's stretch of it known. */
function written(type: TypeInfo, active: ParameterInfo | undefined): SignatureHelp {
  let label = type.name;
  const parameters = type.parameters.map((parameter): ParameterInformation => {
    const text = `${parameter.name} ${formOf(parameter)}`.trim();
    const start = label.length + 1;
    label += ` ${text}`;
    const doc = parameter.doc === undefined ? undefined : markdown(plain(parameter.doc));
    return { label: [start, start + text.length], ...(doc === undefined ? {} : { documentation: doc }) };
  });
  const index = active === undefined ? -1 : type.parameters.indexOf(active);
  const doc = paragraphs(type.doc === undefined ? undefined : plain(type.doc));
  const signature = { label, parameters, ...(doc === '' ? {} : { documentation: markdown(doc) }) };
  // No argument is marked by a number that none has.
  return { signatures: [signature], activeSignature: 0, activeParameter: index < 0 ? parameters.length : index };
}

function formOf({ kind, value, choices }: ParameterInfo): string {
  if (kind === 'choice') return choices.join('|');
  return value === undefined ? '' : quantityText({ ...value, tolerance: 0 });
}
