// Lint rules: strict TypeScript with types, and the house's limits on files, functions and claims without proof.
import js from '@eslint/js';
import tseslint from 'typescript-eslint';

const product = ['language/**/*.ts', 'server/**/*.ts', 'extension/**/*.ts'];

// Where `!` may stand: the inner loops of the linear algebra, whose indices are made in the same file. Each states its invariant.
const numericKernels = ['language/numerics/**/*.ts'];

// Where a function may be long or branch much, and why: a page's component is its state with the handlers that share it, and its keys are one branch a key.
const longFunctions = [
  'extension/client.ts',
  'extension/{preview,sheet}/panel.ts',
  'extension/preview/webview/{details,hear/section,plot,stage,view}.ts',
];
const manyBranches = ['extension/preview/webview/stage.ts'];

export default tseslint.config(
  { ignores: ['node_modules/', 'dist/', 'coverage/', '.cache/', '**/generated/'] },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strict],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      // The tests index what they have just made.
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-invalid-void-type': ['error', { allowAsThisParameter: true }],
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/only-throw-error': 'error',
      '@typescript-eslint/no-unnecessary-type-assertion': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      '@typescript-eslint/consistent-type-imports': 'error',
    },
  },
  {
    // Nothing that is shipped reaches the network.
    files: product,
    rules: { 'no-restricted-globals': ['error', 'fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource'] },
  },
  {
    files: product,
    ignores: numericKernels,
    rules: { '@typescript-eslint/no-non-null-assertion': 'error' },
  },
  {
    files: product,
    rules: {
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      complexity: ['error', 20],
      'max-params': ['error', 5],
    },
  },
  { files: longFunctions, rules: { 'max-lines-per-function': 'off' } },
  { files: manyBranches, rules: { complexity: 'off' } },
  {
    files: ['**/*.{mjs,js}'],
    languageOptions: { globals: { console: 'readonly', process: 'readonly', URL: 'readonly', setTimeout: 'readonly' } },
  },
  {
    rules: {
      'max-lines': ['error', 500],
      eqeqeq: 'error',
      'no-console': 'off',
      'no-else-return': 'error',
      'prefer-const': 'error',
      'object-shorthand': 'error',
    },
  },
);
