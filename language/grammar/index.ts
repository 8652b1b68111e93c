/** grammar/: text to syntax tree, values, and the one layout of the text. */
export * from './tree.js';
export { formatText, formatTextSteps } from './format/format.js';
export { createTextParser, longestText, mostStatements, parseText, parseTextSteps, type TextParser } from './parse.js';
export { isLetterCode, parseValue, valueProblem, type ParsedValue, type ValueUnit } from './values.js';
export { gaugeText, wireDiameter } from './gauge.js';
export { formatQuantity } from './quantities.js';
export { lastOf, scanStatements, type Chunk, type Scan } from './statements.js';
export { isComment, isSign, tokenize, type Token } from './tokens.js';
export { parseSettings } from './parse-settings.js';
export { writingAt, type Writing } from './cursor.js';
export { baseWords, colours, joiningWords, parseColour, type Colour } from './words.js';
export {
  arrangementWords,
  bodyWords,
  claimWords,
  demandingWords,
  entryOf,
  innerWords,
  isBodyWord,
  isHeadWord,
  isStatementWord,
  nextOf,
  statementWords,
  wordsOfClaims,
  type BodyWord,
  type HeadWord,
  type StatementWord,
} from './syntax/syntax.js';
export { formOf } from './syntax/form.js';
export { visible } from '../escape.js';
export { insertionOf, type Insertion } from './insertion.js';
export { lineEndOf, linesOf } from './lines.js';
