// Lint rules: strict TypeScript with types, and the house's limit on file lengths.
import js from '@eslint/js';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['node_modules/', 'dist/', 'coverage/', '.cache/', '**/generated/'] },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strict],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
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
    files: ['language/**/*.ts', 'server/**/*.ts', 'extension/**/*.ts'],
    rules: { 'no-restricted-globals': ['error', 'fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource'] },
  },
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
