/** circuit/: from the syntax tree to the circuit: parts, lugs, joints, elements, controls, and what is wrong with the text. */
export * from './model.js';
export { formatQuantity, gaugeText, wireDiameter } from '../grammar/index.js';
export { amount } from './amount.js';
export { BUILD_UNITS } from './lower/make-build.js';
export { lower, lowerSteps } from './lower/lower.js';
export { readSettings, type ReadSettings } from './lower/read-settings.js';
export { resolveUse, type Sources } from './files.js';
export { isSameInMeaning } from './same-meaning.js';
export { numberEdits } from './number-edits.js';
export { counted } from './phrases.js';
export { PROBLEM_RULES, type ProblemRule } from './problems.js';
export { libraryProblems, libraryTrees, standardTypeInfos, typesOf } from './types/types.js';
export { BASES, COMMON_PROPERTIES, ROLE_WORDS } from './types/bases.js';
export { intentSignature, looksSignature, topologySignature, valuesSignature } from './signature.js';
/** Whether a choice of tapers may be given as measured points as well. */
export { takesPoints } from './types/taper-points.js';
/** What may stand in the braces of each kind of element inside a type. */
export { ELEMENT_PROPERTIES, type PropertyWanted } from './types/element-properties.js';
/** The circuit as JSON, its schema, and the way back. */
export { circuitFromJson, circuitSchema, circuitToJson, type Addresses } from './interchange/index.js';
