/** Completion for zsh: to be sourced, or kept as `_lugwork` in a folder of `fpath`. */
import type { Offer, OfferedCommand, OfferedOption } from './words.js';

export function zshScript(commands: readonly OfferedCommand[]): string {
  return `#compdef lugwork
# Completion of lugwork for zsh: source <(lugwork completion zsh), behind compinit
_lugwork() {
  local curcontext="$curcontext" state line
  typeset -A opt_args
  _arguments -C '(- : *)'{-h,--help}'[show the help]' '(- : *)'{-v,--version}'[show the version]' '1: :->command' '*:: :->rest'
  case $state in
    command)
      local -a commands
      commands=(
${commands.map(({ name, summary }) => `        ${quoted(`${name}:${summary}`)}`).join('\n')}
      )
      _describe -t commands command commands
      ;;
    rest)
      case $words[1] in
${commands.map(caseOf).join('\n')}
      esac
      ;;
  esac
}
if [[ $funcstack[1] == _lugwork ]]; then
  _lugwork "$@"
else
  compdef _lugwork lugwork
fi
`;
}

function caseOf({ name, options, operand }: OfferedCommand): string {
  const specs = [...options.flatMap(specsOf), `*: :${actionOf(operand)}`];
  return [
    `        ${name})`,
    '          _arguments \\',
    specs.map((spec) => `            ${quoted(spec)}`).join(' \\\n'),
    '          ;;',
  ].join('\n');
}

function specsOf(option: OfferedOption): readonly string[] {
  const { name, short, summary, value, offer, isOptional } = option;
  const about = `[${summary.replace(/[\\[\]]/g, '\\$&')}]`;
  const word = value.replace(/[\\:]/g, '\\$&');
  if (offer === undefined) return [`--${name}${about}`, ...(short === undefined ? [] : [`-${short}${about}`])];
  const action = `${isOptional ? '::' : ':'}${word}:${actionOf(offer)}`;
  const long = `--${name}${isOptional ? '=-' : '='}${about}${action}`;
  return [long, ...(short === undefined ? [] : [`-${short}${about}${action}`])];
}

function actionOf(offer: Offer): string {
  if (offer.kind === 'words') return `(${offer.words.join(' ')})`;
  if (offer.kind === 'none') return ' ';
  // The qualifiers (plain files, links too) keep zsh from reading the endings as such.
  return offer.endings.length === 0 ? '_files' : `_files -g "*.(${offer.endings.join('|')})(-.)"`;
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", `'\\''`)}'`;
}
