// The tiers of a test run, the one list of what is left to the long one. `npm test` runs the usual tier, `-- --long` the long one, `-- --all` both, as CI does.

/** Test files of the long tier; all others are in the usual one. */
export const longFiles = [
  // Random input, seeded and counted.
  'tests/checks/inside.test.ts',
  'tests/checks/properties.test.ts',
  'tests/circuit/properties.test.ts',
  'tests/compare/properties.test.ts',
  'tests/fuzz/fuzz.test.ts',
  'tests/grammar/never-throws.test.ts',
  'tests/lsp/random-edits.test.ts',
  'tests/practice/correct.test.ts',
  // Hundreds of drawings.
  'tests/drawing/examples.test.ts',
  'tests/drawing/hostile.test.ts',
  'tests/drawing/layout.test.ts',
  'tests/drawing/stability.test.ts',
  // Every place of every example.
  'tests/checks/without-each.test.ts',
  'tests/command/fix-faulty.test.ts',
  'tests/examples/response-claims.test.ts',
  'tests/lsp/completion-everywhere.test.ts',
  // Processes that are killed, or that work as long as they may.
  'tests/command/killed.test.ts',
  'tests/grammar/memory.test.ts',
  'tests/command/budget.test.ts',
  'tests/intent/bounds.test.ts',
  'tests/intent/budget.test.ts',
  'tests/intent/exchange.test.ts',
  'tests/intent/heavy-search.test.ts',
  // How work grows, and whether a large circuit leaves the loop to others.
  'tests/bench/growth-table.test.ts',
  'tests/bench/scale.test.ts',
  'tests/checks/growth.test.ts',
  'tests/lsp/turns.test.ts',
  // Streams, files and limits of real processes.
  'tests/command/injection.test.ts',
  'tests/command/completion.test.ts',
  'tests/command/limits.test.ts',
  'tests/command/streams.test.ts',
  'tests/command/walk.test.ts',
  'tests/command/caps.test.ts',
  'tests/compare/review/review.test.ts',
  'tests/compare/review/workflow-branches.test.ts',
  'tests/command/writing.test.ts',
  'tests/fit/fit.test.ts',
  'tests/grammar/long-statements.test.ts',
  // What installs, packs and starts.
  'tests/editor/package.test.ts',
  'tests/lsp/clients/emacs.test.ts',
  'tests/lsp/clients/neovim.test.ts',
  'tests/release/lines.test.ts',
  'tests/release/packages.test.ts',
  'tests/scripts/hosts.test.ts',
  'tests/scripts/programs.test.ts',
  'tests/scripts/run.test.ts',
  'tests/scripts/start.test.ts',
];

/** The tiers, and the word after `--` that asks for each; without one it is the usual tier. */
export const tiers = ['usual', 'long', 'all'];

/**
 * What a call of `npm test` asks for: the tier, or else the words for the test runner. A file that is named is run whichever tier it belongs to.
 * Throws an Error in plain words where both are given.
 */
export function parseCall(words) {
  const asked = words.filter((word) => word === '--long' || word === '--all');
  if (asked.length === 0) return words.length === 0 ? { tier: 'usual', words } : { words };
  if (words.length > 1)
    throw new Error(`${asked[0]} runs a whole tier and takes nothing beside it; a file that is named is run in any case.`);
  return { tier: asked[0].slice(2), words: [] };
}

/** The words by which the test runner takes the files of a tier. */
export function fileWords(tier) {
  if (tier === 'long') return longFiles;
  return tier === 'usual' ? longFiles.flatMap(exclusion) : [];
}

/** The words that leave a test file out: the runner reads them from its folder of tests, files that are asked for from the root. */
export function exclusion(file) {
  return ['--exclude', `**/${file.replace(/^tests\//, '')}`];
}
