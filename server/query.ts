import type { AnnotateOptions } from '../render/annotation.ts';
import { findNearest } from './nearest.ts';
import type { ReplyType } from './negotiate.ts';
import { decline, type Outcome } from './service-problem.ts';

const OPTIONS = ['part', 'page', 'pages'] as const;

type Option = (typeof OPTIONS)[number];

const isOption = (name: string): name is Option => (OPTIONS as readonly string[]).includes(name);

/** What the query of a request asks for. */
export interface Query {
  readonly options: AnnotateOptions;
  /** The page wanted, from 1. */
  readonly page: number;
  /** Whether a report is to hold the drawn pages; without them nothing is laid out, which is quicker. */
  readonly withPages: boolean;
}

const bad = (option: Option, value: string, expected: string) =>
  decline({ code: 'bad-option', option, value, expected });

const readPage = (value: string, reply: ReplyType): Outcome<number> => {
  if (reply !== 'image/svg+xml') return bad('page', value, `it belongs to image/svg+xml, not to ${reply}`);
  return /^[1-9]\d{0,5}$/.test(value)
    ? { ok: true, value: Number(value) }
    : bad('page', value, 'a page is a whole number from 1');
};

const readPages = (value: string, reply: ReplyType): Outcome<boolean> => {
  if (reply !== 'application/json')
    return bad('pages', value, `it belongs to application/json, not to ${reply}`);
  return value === 'all' || value === 'none'
    ? { ok: true, value: value === 'all' }
    : bad('pages', value, 'it is all or none');
};

/** One option's value as read, or what holds where it is not given. */
const readIfGiven = <T>(
  value: string | undefined,
  otherwise: T,
  read: (value: string) => Outcome<T>,
): Outcome<T> => (value === undefined ? { ok: true, value: otherwise } : read(value));

/**
 * Reads the options of a request; nothing in the query is passed over.
 *
 * @param query what follows the question mark
 * @returns the options, or `unknown-option` or `bad-option`
 */
export const readQuery = (query: string, reply: ReplyType): Outcome<Query> => {
  const found = new Map<Option, string>();
  for (const [name, value] of new URLSearchParams(query)) {
    if (!isOption(name)) {
      return decline({
        code: 'unknown-option',
        option: name,
        nearest: findNearest(name, OPTIONS),
        options: OPTIONS,
      });
    }
    if (found.has(name)) return bad(name, value, 'it is given twice');
    found.set(name, value);
  }
  const part = found.get('part');
  if (part?.trim() === '') return bad('part', part, 'name a part by its id or its name');
  const page = readIfGiven(found.get('page'), 1, (value) => readPage(value, reply));
  if (!page.ok) return page;
  const withPages = readIfGiven(found.get('pages'), true, (value) => readPages(value, reply));
  if (!withPages.ok) return withPages;
  const options = part === undefined ? {} : { part };
  return { ok: true, value: { options, page: page.value, withPages: withPages.value } };
};
