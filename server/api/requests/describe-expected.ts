import * as z from 'zod';

/** The schema without what only says that it may be left out. */
export const unwrap = (schema: unknown): unknown =>
  schema instanceof z.ZodExactOptional || schema instanceof z.ZodOptional ? unwrap(schema.unwrap()) : schema;

const isOptional = (schema: unknown): boolean =>
  schema instanceof z.ZodExactOptional || schema instanceof z.ZodOptional;

const listWords = (words: readonly string[], last: 'and' | 'or'): string =>
  words.join(', ').replace(/, ([^,]*)$/, ` ${last} $1`);

/** The kinds of value that will do, unions of unions laid flat. */
const kindsOf = (schema: unknown): readonly unknown[] => {
  const inner = unwrap(schema);
  return inner instanceof z.ZodUnion ? inner.options.flatMap(kindsOf) : [inner];
};

/** Words that will do, and what an object in their place needs; null where the schema is no such choice. */
const describeChoice = (schema: unknown): string | null => {
  const kinds = kindsOf(schema);
  const words = kinds.flatMap((each) => (each instanceof z.ZodEnum ? each.options.map(String) : []));
  const needed = kinds
    .filter((each) => each instanceof z.ZodObject)
    .map((each) => Object.keys(each.shape).filter((key) => !isOptional(each.shape[key])))
    .reduce<readonly string[] | null>(
      (least, keys) => (least !== null && least.length <= keys.length ? least : keys),
      null,
    );
  if (words.length === 0 || needed === null) return null;
  return `${words.join(', ')}, or an object with ${listWords(needed, 'and')}`;
};

/** The fields that an object at a path may have. */
export const fieldsAt = (schema: unknown, path: readonly PropertyKey[]): readonly string[] =>
  kindsOf(schemaAt(schema, path)).flatMap((each) =>
    each instanceof z.ZodObject ? Object.keys(each.shape) : [],
  );

/** The schema of what a path leads to; null where it leads to nothing that is known. */
const schemaAt = (schema: unknown, path: readonly PropertyKey[]): unknown => {
  const [key, ...rest] = path;
  const inner = unwrap(schema);
  if (key === undefined) return inner;
  if (inner instanceof z.ZodArray) return schemaAt(inner.element, rest);
  const shape = kindsOf(inner).find((each) => each instanceof z.ZodObject && Object.hasOwn(each.shape, key));
  return shape instanceof z.ZodObject ? schemaAt(shape.shape[String(key)], rest) : null;
};

/** Whether a kind of value was refused for what it is, not for something in it. */
const isOtherKind = (issues: readonly z.core.$ZodIssue[]): boolean =>
  issues.some(({ path, code }) => path.length === 0 && code !== 'unrecognized_keys') ||
  issues.some(({ path, code }) => path[0] === 'kind' && code === 'invalid_value');

/** The issue with the kind of value that was most likely meant: the one that has least amiss within it. */
export const innermostIssue = (issue: z.core.$ZodIssue): z.core.$ZodIssue => {
  if (issue.code !== 'invalid_union') return issue;
  const candidates = issue.errors
    .map((issues) => issues.map(innermostIssue).map((inner) => ({ ...inner, path: [...inner.path] })))
    .filter((issues) => !isOtherKind(issues))
    .sort((a, b) => a.length - b.length);
  const meant = candidates[0]?.[0];
  return meant === undefined ? issue : { ...meant, path: [...issue.path, ...meant.path] };
};

/**
 * What would have been right, as the end of a sentence.
 *
 * @param schema of what the issue was found in
 */
export const describeExpected = (issue: z.core.$ZodIssue, schema: unknown): string => {
  switch (issue.code) {
    case 'invalid_value':
      return `it must be ${listWords(issue.values.map(String), 'or')}`;
    case 'too_small':
      return `it must be at least ${issue.minimum}${issue.origin === 'string' ? ' characters long' : ''}`;
    case 'too_big':
      return `it must be at most ${issue.maximum}${issue.origin === 'string' ? ' characters long' : ''}`;
    case 'invalid_type':
      return issue.expected === 'int'
        ? 'it must be a whole number'
        : `it must be ${/^[aeiou]/.test(issue.expected) ? 'an' : 'a'} ${issue.expected}`;
    case 'invalid_union': {
      const choice = describeChoice(schemaAt(schema, issue.path));
      if (choice !== null) return `it must be ${choice}`;
      const [first] = issue.errors.map((issues) => issues[0]).filter((each) => each !== undefined);
      return first === undefined ? 'this kind of value is not known' : describeExpected(first, null);
    }
    case 'invalid_format':
      return 'it is not in the right format; see the description of the API at /docs';
    default:
      return issue.message;
  }
};

/**
 * What would have to be given where nothing is: by the description of what is missing; or, where it is a part of
 * something that can be given otherwise too, by all ways to give that.
 */
export const describeMissing = (
  schema: unknown,
  path: readonly PropertyKey[],
): { readonly expected: string; readonly example: string | null } => {
  const whole = path.slice(0, -1);
  const choice = describeChoice(schemaAt(schema, whole));
  if (choice !== null) return { expected: `${whole.map(String).join('.')} must be ${choice}`, example: null };
  const missing = schemaAt(schema, path);
  const meta = missing instanceof z.ZodType ? missing.meta() : undefined;
  const examples: unknown = meta?.examples;
  const example: unknown = Array.isArray(examples) ? examples[0] : null;
  return {
    expected: meta?.description === undefined ? 'it is required' : beginSmall(meta.description),
    example: typeof example === 'string' ? example : null,
  };
};

const beginSmall = (sentence: string): string =>
  sentence.replace(/\.$/, '').replace(/^[A-Z]/, (first) => first.toLowerCase());
