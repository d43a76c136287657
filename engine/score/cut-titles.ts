import { type Remark, remarkOnAll } from './model/remark.ts';
import type { Score, Titles } from './model/score.ts';

/** Some four lines at the top of a page. */
const LONGEST_TITLE = 300;

/** Where the word for it is another than the field’s. */
const WORDS: Readonly<Record<string, string>> = { part: 'name of the part', rights: 'line of rights' };

const cut = (text: string): string =>
  text.length <= LONGEST_TITLE ? text : `${text.slice(0, LONGEST_TITLE).trimEnd()}…`;

/** Cuts titles and the name of the part where no page has room for them, and says so. */
export const cutTitles = (score: Score): Score => {
  const { titles, harp } = score;
  const all = { ...titles, part: harp.name };
  const long = Object.entries(all).filter(([, text]) => text.length > LONGEST_TITLE);
  if (long.length === 0) return score;
  const remarks = long.map(
    ([name, text]): Remark =>
      remarkOnAll(
        'title-cut',
        `The ${WORDS[name] ?? name} has ${text.length} characters: the first ${LONGEST_TITLE} are printed.`,
      ),
  );
  const { part, ...rest } = Object.fromEntries(
    Object.entries(all).map(([name, text]) => [name, cut(text)]),
  ) as Record<keyof Titles | 'part', string>;
  return { ...score, titles: rest, harp: { ...harp, name: part }, remarks: [...score.remarks, ...remarks] };
};
