/** Completion for PowerShell. Where nothing is offered, PowerShell offers files itself. */
import { spellings, type OfferedCommand } from './words.js';

export function powershellScript(commands: readonly OfferedCommand[]): string {
  return `# Completion of lugwork for PowerShell: lugwork completion powershell | Out-String | Invoke-Expression
Register-ArgumentCompleter -Native -CommandName lugwork -ScriptBlock {
  param($word, $ast, $cursor)
  $commands = [ordered]@{
${commands.map(entryOf).join('\n')}
  }
  $before = @($ast.CommandElements | Where-Object { $_.Extent.EndOffset -lt $cursor } | ForEach-Object { $_.Extent.Text })
  if ($before.Count -le 1) {
    $offered = @($commands.Keys) + '--help', '--version'
  } else {
    $command = $commands[$before[1]]
    if ($null -eq $command) { return }
    $previous = $before[-1]
    if ($command.Values.Contains($previous)) { $offered = $command.Values[$previous] }
    elseif ($word.StartsWith('-')) { $offered = $command.Options }
    else { $offered = $command.Operands }
  }
  $offered | Where-Object { $_.StartsWith($word) } | ForEach-Object {
    [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
  }
}
`;
}

function entryOf({ name, options, operand }: OfferedCommand): string {
  const values = options
    .filter(({ offer, isOptional }) => offer !== undefined && !isOptional)
    .flatMap((option) => {
      const words = option.offer?.kind === 'words' ? option.offer.words : [];
      return spellings(option).map((spelling) => `'${spelling}' = ${list(words)}`);
    });
  const operands = operand.kind === 'words' ? operand.words : [];
  return `    '${name}' = @{ Options = ${list(options.flatMap(spellings))}; Operands = ${list(operands)}; Values = @{ ${values.join('; ')} } }`;
}

function list(words: readonly string[]): string {
  return `@(${words.map((word) => `'${word}'`).join(', ')})`;
}
