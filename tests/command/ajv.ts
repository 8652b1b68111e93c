/** The validator of JSON Schema, which is CommonJS and is imported by its default. */
import ajv from 'ajv';

export type ValidateFunction = ReturnType<ajv.Ajv['compile']>;
export const Ajv = ajv as unknown as new (options?: ajv.Options) => ajv.Ajv;
