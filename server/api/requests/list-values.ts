import * as z from 'zod';
import type { NamedOption } from './read-options.ts';

type JsonSchema = Readonly<Record<string, unknown>>;

/** A schema with a name stands among the definitions, and is referred to. */
const resolve = (schema: JsonSchema, definitions: JsonSchema): JsonSchema => {
  const name = /^#\/\$defs\/(.+)$/.exec(String(schema.$ref))?.[1];
  return name === undefined ? schema : (definitions[name] as JsonSchema);
};

const valuesOf = (referred: JsonSchema, definitions: JsonSchema): readonly string[] => {
  const schema = resolve(referred, definitions);
  const { type, enum: values, const: value, anyOf, minimum, maximum } = schema;
  if (Array.isArray(anyOf)) return anyOf.flatMap((each: JsonSchema) => valuesOf(each, definitions));
  if (Array.isArray(values)) return values.map(String);
  if (value !== undefined) return [String(value)];
  const range = minimum === undefined || maximum === undefined ? '' : ` from ${minimum} to ${maximum}`;
  if (type === 'object') return [];
  return [`${type === 'integer' ? 'whole number' : String(type)}${range}`];
};

/** The values that an option takes, in words; parts of an option are options of their own. */
export const listValues = ({ schema }: NamedOption): readonly string[] => {
  const json = z.toJSONSchema(schema, { io: 'input' }) as JsonSchema;
  return [...new Set(valuesOf(json, (json.$defs ?? {}) as JsonSchema))];
};
