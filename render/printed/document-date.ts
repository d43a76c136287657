import { descendantsNamed, firstChild, type Score } from '../../engine/index.ts';

/** A day; archives ask for one in every document. */
export interface DocumentDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** The day of this version of the program, for scores that state none: the clock would give other bytes every day. */
export const VERSION_DATE: DocumentDate = { year: 2026, month: 11, day: 28 };

/** The day on which a score says that it was encoded (MusicXML `encoding-date`, MEI `pubStmt/date`). */
export const documentDate = ({ source: { root, format } }: Score): DocumentDate => {
  const said =
    format === 'mei'
      ? descendantsNamed(root, 'pubStmt').map((each) => firstChild(each, 'date')?.attributes.isodate)
      : descendantsNamed(root, 'encoding-date').map((each) => each.text.trim());
  return said.flatMap((text) => readDate(text ?? '') ?? [])[0] ?? VERSION_DATE;
};

const readDate = (text: string): DocumentDate | null => {
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)/.exec(text)?.map(Number) ?? [];
  if (year === undefined || month === undefined || day === undefined) return null;
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day ? { year, month, day } : null;
};
