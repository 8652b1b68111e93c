/** grammar/: text to syntax tree, values, and the one layout of the text. */
export * from './tree.js';
export { isLetterCode, parseValue, valueProblem, type ParsedValue, type ValueUnit } from './values.js';
export { formatQuantity } from './quantities.js';
