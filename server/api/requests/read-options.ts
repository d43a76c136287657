import * as z from 'zod';
import { fail, type Outcome } from '../../service-problem.ts';
import { describeExpected, describeMissing, fieldsAt, innermostIssue, unwrap } from './describe-expected.ts';
import { findJsonExcess } from './json-limits.ts';
import { findNearest } from './nearest-word.ts';
import { quoteValue } from './quote-value.ts';

/** One option that a query or a command line can name; what is nested is named with dots: `settings.start`. */
export interface NamedOption {
  readonly name: string;
  readonly schema: z.ZodType;
  /** In a sentence or two; undefined where nothing is said. */
  readonly description: string | undefined;
}

/** Lists have no single name: they are given in the JSON of a form. */
const isFlat = (schema: unknown): boolean => {
  const inner = unwrap(schema);
  if (inner instanceof z.ZodArray) return false;
  return inner instanceof z.ZodObject ? Object.values(inner.shape).every(isFlat) : true;
};

/** The options of a schema that have a name of their own, in its order. */
export const nameOptions = (schema: z.ZodObject, prefix = ''): readonly NamedOption[] =>
  Object.entries(schema.shape).flatMap(([key, member]): readonly NamedOption[] => {
    const name = `${prefix}${key}`;
    const inner = unwrap(member);
    if (inner instanceof z.ZodObject) return nameOptions(inner, `${name}.`);
    if (inner instanceof z.ZodArray) return [];
    // What is said of an option stands at the member, not at what it holds.
    const description = [member, inner].map((each) => z.globalRegistry.get(each as z.ZodType)?.description);
    const own = {
      name,
      schema: inner as z.ZodType,
      description: description.find((each) => each !== undefined),
    };
    if (!(inner instanceof z.ZodUnion)) return [own];
    const objects = inner.options.filter((each) => each instanceof z.ZodObject && isFlat(each));
    return [own, ...objects.flatMap((each) => nameOptions(each as z.ZodObject, `${name}.`))];
  });

const badOption = (option: string, value: string, expected: string) =>
  fail({ code: 'bad-option', option, value, expected });

const unknownOption = (option: string, known: readonly string[]) =>
  fail({ code: 'unknown-option', option, nearest: findNearest(option, known), options: known });

/** What a word can mean: itself, or the number, truth value or null that it names. */
const meaningsOf = (text: string): readonly unknown[] => [
  text,
  ...(/^-?(?:0|[1-9]\d{0,11})(?:\.\d{1,9})?$/.test(text) ? [Number(text)] : []),
  ...(text === 'true' ? [true] : []),
  ...(text === 'false' ? [false] : []),
  ...(text === 'null' ? [null] : []),
];

const readWord = ({ name, schema }: NamedOption, text: string): Outcome<unknown> => {
  const meanings = meaningsOf(text);
  const fit = meanings.find((meaning) => schema.safeParse(meaning).success);
  if (fit !== undefined) return { ok: true, value: fit };
  const { error } = schema.safeParse(meanings.at(-1));
  return badOption(name, text, describeExpected(error!.issues[0]!, schema));
};

type Tree = Record<string, unknown>;

const isTree = (value: unknown): value is Tree =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** @returns whether there was room: not where the same option is given as a whole */
const plant = (tree: Tree, name: string, value: unknown): boolean => {
  const keys = name.split('.');
  const last = keys.pop()!;
  let branch = tree;
  for (const key of keys) {
    if (!Object.hasOwn(branch, key)) branch[key] = {};
    const next = branch[key];
    if (!isTree(next)) return false;
    branch = next;
  }
  if (Object.hasOwn(branch, last)) return false;
  branch[last] = value;
  return true;
};

/**
 * Reads options given as names and words, as in a query.
 *
 * @returns the options as JSON would hold them, or `unknown-option` or `bad-option`; nothing is passed over
 */
export const readNamed = (schema: z.ZodObject, given: Iterable<readonly [string, string]>): Outcome<Tree> => {
  const options = nameOptions(schema);
  const tree: Tree = {};
  for (const [name, text] of given) {
    const option = options.find((each) => each.name === name);
    if (option === undefined) {
      return Object.hasOwn(schema.shape, name)
        ? badOption(name, text, 'give it in the JSON part “options” of a form')
        : unknownOption(
            name,
            options.map((each) => each.name),
          );
    }
    const value = readWord(option, text);
    if (!value.ok) return value;
    if (!plant(tree, name, value.value)) return badOption(name, text, 'it is given twice');
  }
  return { ok: true, value: tree };
};

/** Reads the JSON text of options. @returns `bad-multipart` for what is no JSON object, or too much of one */
export const readJson = (text: string): Outcome<Tree> => {
  const excess = findJsonExcess(text);
  if (excess !== null) return fail({ code: 'bad-multipart', reason: excess });
  try {
    const value: unknown = JSON.parse(text);
    if (isTree(value)) return { ok: true, value };
  } catch {
    // Told below, as for JSON that is no object.
  }
  return fail({ code: 'bad-multipart', reason: 'the part “options” is not a JSON object' });
};

/**
 * Puts the options of the query and of the JSON together and checks them against their schema.
 *
 * @returns the options, or `unknown-option` (naming the nearest that is known), `bad-option` or `missing-option`
 */
export const readOptions = <T extends z.ZodObject>(
  schema: T,
  query: string,
  json: string | null,
): Outcome<z.infer<T>> => {
  const named = readNamed(schema, new URLSearchParams(query));
  if (!named.ok) return named;
  const written: Outcome<Tree> = json === null ? { ok: true, value: {} } : readJson(json);
  if (!written.ok) return written;
  const twice = Object.keys(named.value).find((name) => Object.hasOwn(written.value, name));
  if (twice !== undefined) return badOption(twice, quoteValue(written.value[twice]), 'it is given twice');
  return checkOptions(schema, { ...written.value, ...named.value });
};

/** Entries of a list that are checked together. */
const CHUNK = 100;

/**
 * The first fault in a long list. One fault is told, but a check looks for them all, and takes long over a list of
 * nothing else: so that it never meets one, lists are checked by and by.
 */
const findBadEntry = (schema: z.ZodObject, tree: Tree): z.core.$ZodIssue | null => {
  for (const [name, list] of Object.entries(tree)) {
    if (!Array.isArray(list) || !Object.hasOwn(schema.shape, name)) continue;
    for (let at = 0; at < list.length; at += CHUNK) {
      const checked = z.safeParse(schema.shape[name]!, list.slice(at, at + CHUNK));
      const issue = checked.error?.issues[0];
      const [index, ...rest] = issue?.path ?? [];
      if (issue !== undefined && typeof index === 'number') {
        return { ...issue, path: [name, at + index, ...rest] };
      }
    }
  }
  return null;
};

export const checkOptions = <T extends z.ZodObject>(schema: T, tree: Tree): Outcome<z.infer<T>> => {
  const bad = findBadEntry(schema, tree);
  if (bad !== null) return refuseIssue(bad, schema, tree);
  const checked = schema.safeParse(tree);
  return checked.success
    ? { ok: true, value: checked.data }
    : refuseIssue(checked.error.issues[0]!, schema, tree);
};

const refuseIssue = (found: z.core.$ZodIssue, schema: z.ZodObject, tree: Tree) => {
  const issue = innermostIssue(found);
  const path = issue.path.map(String);
  if (issue.code === 'unrecognized_keys') {
    const known = knownKeys(schema, path);
    return unknownOption([...path, issue.keys[0]!].join('.'), known);
  }
  let value: unknown = tree;
  for (const key of issue.path)
    value = isTree(value) || Array.isArray(value) ? Reflect.get(value, key) : undefined;
  const option = path.join('.');
  return value === undefined
    ? fail({ code: 'missing-option', option, ...describeMissing(schema, issue.path) })
    : badOption(option, quoteValue(value), describeExpected(issue, schema));
};

/** The options that stand beside one that is not known. */
const knownKeys = (schema: z.ZodObject, path: readonly string[]): readonly string[] => {
  const prefix = path.map((key) => `${key}.`).join('');
  const fields = fieldsAt(schema, path).map((field) => `${prefix}${field}`);
  const named = nameOptions(schema).map((each) => each.name);
  return [...new Set([...fields, ...named])].filter((name) => name.startsWith(prefix));
};
