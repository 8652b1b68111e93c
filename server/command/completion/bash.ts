/** Completion for bash, from version 3.2 on, without the package of completions. */
import { spellings, type Offer, type OfferedCommand } from './words.js';

export function bashScript(commands: readonly OfferedCommand[]): string {
  const first = [...commands.map(({ name }) => name), '--help', '--version'];
  return `# Completion of lugwork for bash: source <(lugwork completion bash)
_lugwork() {
  local cur prev words files options
  COMPREPLY=()
  cur=\${COMP_WORDS[COMP_CWORD]}
  prev=\${COMP_WORDS[COMP_CWORD-1]}
  # bash takes --fix=likely as three words.
  if [[ $cur == = ]]; then
    cur=
  elif [[ $prev == = ]]; then
    prev=\${COMP_WORDS[COMP_CWORD-2]}
  fi
  if ((COMP_CWORD == 1)); then
    COMPREPLY=($(compgen -W '${first.join(' ')}' -- "$cur"))
    return
  fi
  options=
  case \${COMP_WORDS[1]} in
${commands.map(caseOf).join('\n')}
    *) return ;;
  esac
  if [[ -n $words ]]; then
    COMPREPLY=($(compgen -W "$words" -- "$cur"))
  elif [[ $cur == -* && -n $options ]]; then
    COMPREPLY=($(compgen -W "$options" -- "$cur"))
  elif [[ -n $files ]]; then
    local IFS=$'\\n'
    compopt -o filenames 2> /dev/null
    COMPREPLY=($(compgen -d -- "$cur") $(compgen -f -X "$files" -- "$cur" | while read -r file; do [[ -d $file ]] || printf '%s\\n' "$file"; done))
  fi
}
complete -F _lugwork lugwork
`;
}

function caseOf({ name, options, operand }: OfferedCommand): string {
  const before = options
    .filter(({ offer, isOptional }) => offer !== undefined && !isOptional)
    .map((option) => {
      const names = spellings(option).join(' | ');
      return `        ${names}) ${option.offer?.kind === 'none' ? 'return' : assignment(option.offer)} ;;`;
    });
  const optional = options
    .filter(({ isOptional }) => isOptional)
    .map(
      (option) =>
        `        --${option.name}) [[ \${COMP_WORDS[COMP_CWORD]} == = || \${COMP_WORDS[COMP_CWORD-1]} == = ]] && ${assignment(option.offer)} ;;`,
    );
  const cases = [...before, ...optional];
  return [
    `    ${name})`,
    `      options='${options.flatMap(spellings).join(' ')}'`,
    `      ${assignment(operand)}`,
    ...(cases.length === 0 ? [] : ['      case $prev in', ...cases, '      esac']),
    '      ;;',
  ].join('\n');
}

/** Files by the pattern of those that are left out. */
function assignment(offer: Offer | undefined): string {
  if (offer?.kind === 'words') return `files= words='${offer.words.join(' ')}'`;
  if (offer?.kind === 'none') return 'words= files=';
  const endings = offer?.kind === 'files' ? offer.endings : [];
  return `words= files='${endings.length === 0 ? '!*' : `!*.${endings.join('|')}`}'`;
}
