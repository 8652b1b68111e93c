/** Completion for fish. */
import type { Offer, OfferedCommand, OfferedOption } from './words.js';

export function fishScript(commands: readonly OfferedCommand[]): string {
  return [
    '# Completion of lugwork for fish: lugwork completion fish > ~/.config/fish/completions/lugwork.fish',
    'complete -c lugwork -f',
    "complete -c lugwork -n __fish_use_subcommand -s h -l help -d 'show the help'",
    "complete -c lugwork -n __fish_use_subcommand -s v -l version -d 'show the version'",
    ...commands.flatMap(linesOf),
    '',
  ].join('\n');
}

function linesOf({ name, summary, options, operand }: OfferedCommand): readonly string[] {
  const within = `complete -c lugwork -n '__fish_seen_subcommand_from ${name}'`;
  return [
    `complete -c lugwork -n __fish_use_subcommand -a ${name} -d ${quoted(summary)}`,
    ...options.map((option) => `${within} ${wordsOf(option)} -d ${quoted(option.summary)}`),
    ...(operand.kind === 'none' ? [] : [`${within} -k -a ${quoted(listOf(operand))}`]),
  ];
}

function wordsOf({ name, short, offer, isOptional }: OfferedOption): string {
  const names = `${short === undefined ? '' : `-s ${short} `}-l ${name}`;
  if (offer === undefined) return names;
  if (offer.kind === 'files') return `${names} -r -F`;
  const list = offer.kind === 'words' ? ` -a ${quoted(listOf(offer))}` : '';
  return `${names}${isOptional ? '' : ' -x'}${list}`;
}

function listOf(offer: Offer): string {
  if (offer.kind === 'words') return offer.words.join(' ');
  const endings = offer.kind === 'files' ? offer.endings : [];
  return `(__fish_complete_path (commandline -ct) | string match -r "^.*(?:/|\\\\.(?:${endings.join('|')}))(?:\\\\t.*)?\\$")`;
}

function quoted(text: string): string {
  return `'${text.replace(/[\\']/g, '\\$&')}'`;
}
