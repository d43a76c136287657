import { fail, ok, type Result, type TuneSummary } from '../../../problem.ts';
import { readAbcText } from './abc-text.ts';

/** One tune of an ABC file. */
export interface BookTune {
  /** As the field `X:` says; with a count behind it where a tune before has the same. */
  readonly number: string;
  /** As the first field `T:` says; empty where there is none. */
  readonly title: string;
  /** Line of its `X:`, from 1. */
  readonly line: number;
  /** From `X:` to the empty line that ends it. */
  readonly lines: readonly string[];
  /** Lines after the empty line, before the next tune, that are no comments. */
  readonly strayLines: readonly number[];
}

/** An ABC file taken apart (ABC 2.1, 2.2): what stands before the first tune holds for all of them. */
export interface TuneBook {
  readonly header: readonly string[];
  readonly tunes: readonly BookTune[];
}

/** What a file and a tune may be, far above what music does: a parser of lines has to answer within seconds. */
export const ABC_LIMITS = {
  tunes: 5_000,
  /** Characters of one tune. */
  'tune-length': 100_000,
  /** Characters of one line. */
  'line-length': 5_000,
  /** Of one tune: each has a share in every bar. */
  staves: 32,
} as const;

const TUNE_START = /^X:\s*(.*)$/u;

/** Lines of a text, whatever ends them. */
const linesOf = (text: string): readonly string[] => text.replace(/^\uFEFF/u, '').split(/\r\n|\n|\r/u);

const withoutComment = (line: string): string => line.replace(/(?<!\\)%.*$/u, '').trim();

/** Whether a text looks like ABC: it says so at its start, or has a tune with a number and a key. */
export const isAbc = (text: string): boolean =>
  /^\uFEFF?%abc(?:-\d|\s|$)/u.test(text) || (/^\uFEFF?X:/mu.test(text) && /^K:/mu.test(text));

/**
 * Takes an ABC file apart into its tunes, without reading the music.
 *
 * @returns `limit-exceeded`, or `no-music` where no line begins with `X:`
 */
export const readTuneBook = (text: string): Result<TuneBook> => {
  const lines = linesOf(text);
  const longest = lines.reduce((most, line) => Math.max(most, line.length), 0);
  if (longest > ABC_LIMITS['line-length']) return excess('line-length', longest);
  const starts = lines.flatMap((line, index) => (TUNE_START.test(line) ? [index] : []));
  if (starts.length === 0) return fail({ code: 'no-music', tune: null });
  if (starts.length > ABC_LIMITS.tunes) return excess('tunes', starts.length);
  const tunes = starts.map((start, index) => readTune(lines, start, starts[index + 1] ?? lines.length));
  const large = tunes
    .map((tune) => lengthOf(tune.lines))
    .find((length) => length > ABC_LIMITS['tune-length']);
  if (large !== undefined) return excess('tune-length', large);
  return ok({ header: readFileHeader(lines.slice(0, starts[0])), tunes: numberApart(tunes) });
};

const lengthOf = (lines: readonly string[]): number => lines.reduce((sum, line) => sum + line.length + 1, 0);

const excess = (what: keyof typeof ABC_LIMITS, found: number) =>
  fail({ code: 'limit-exceeded', what, limit: ABC_LIMITS[what], found });

const readTune = (lines: readonly string[], start: number, next: number): BookTune => {
  let end = start;
  while (end < next && lines[end]!.trim() !== '') end += 1;
  const own = lines.slice(start, end);
  const title = own.find((line) => line.startsWith('T:'))?.slice(2) ?? '';
  const strayLines = Array.from({ length: next - end }, (_, index) => end + index + 1).filter(
    (line) => withoutComment(lines[line - 1]!) !== '',
  );
  return {
    number: withoutComment(TUNE_START.exec(own[0]!)![1]!),
    title: readAbcText(withoutComment(title)),
    line: start + 1,
    lines: own,
    strayLines,
  };
};

/** Books that were put together number their tunes anew from 1: each is to be found by a number of its own. */
const numberApart = (tunes: readonly BookTune[]): readonly BookTune[] => {
  const taken = new Map<string, number>();
  return tunes.map((tune, index) => {
    const number = tune.number === '' ? `${index + 1}` : tune.number;
    const before = taken.get(number) ?? 0;
    taken.set(number, before + 1);
    return { ...tune, number: before === 0 ? number : `${number}-${before + 1}` };
  });
};

/** The file header is what stands before the first empty line; free text may follow it. Of its fields those for all tunes count. */
const readFileHeader = (lines: readonly string[]): readonly string[] => {
  const end = lines.findIndex((line) => line.trim() === '');
  return (end < 0 ? lines : lines.slice(0, end)).filter((line) => /^(?:[A-Za-z]:|%%)/u.test(line));
};

/** Case, accents and white space do not tell titles apart. */
const fold = (text: string): string =>
  text.normalize('NFD').replace(/\p{M}/gu, '').replace(/\s+/gu, ' ').trim().toLowerCase();

const summarize = ({ number, title }: BookTune): TuneSummary => ({ number, title });

/**
 * The tune of a book that is wanted.
 *
 * @param wanted its number, or its title; the only tune if not given
 * @returns `choose-tune` where there are several, `unknown-tune` where no tune or several have this number or title
 */
export const chooseTune = ({ tunes }: TuneBook, wanted: string | undefined): Result<BookTune> => {
  if (wanted === undefined) {
    const [only] = tunes;
    return tunes.length === 1 && only !== undefined
      ? ok(only)
      : fail({ code: 'choose-tune', tunes: tunes.map(summarize) });
  }
  const found = tunesCalled(tunes, wanted);
  return found.length === 1
    ? ok(found[0]!)
    : fail({ code: 'unknown-tune', wanted, tunes: tunes.map(summarize) });
};

/** Those with this number, or else with this title. */
const tunesCalled = <T extends TuneSummary>(tunes: readonly T[], wanted: string): readonly T[] => {
  const byNumber = tunes.filter(({ number }) => number === wanted.trim());
  const byTitle = tunes.filter(({ title }) => title !== '' && fold(title) === fold(wanted));
  return byNumber.length > 0 ? byNumber : byTitle;
};

/**
 * Several tunes of a book, in the order in which they are wanted, each once.
 *
 * @param wanted numbers and titles, all tunes that have one of them; or several in one text, parted by commas, where
 * each of them is one: a title may have commas itself
 * @returns with what is wanted and no tune is called so
 */
export const pickTunes = <T extends TuneSummary>(
  tunes: readonly T[],
  wanted: readonly string[],
): { readonly chosen: readonly T[]; readonly unknown: readonly string[] } => {
  const found = wanted.map((text) => tunesListed(tunes, text));
  return {
    chosen: [...new Set(found.flat())],
    unknown: wanted.filter((_, i) => found[i]!.length === 0),
  };
};

/** Those that are called so, or else, of a list with commas, those of each name in it; none where one is not known. */
const tunesListed = <T extends TuneSummary>(tunes: readonly T[], text: string): readonly T[] => {
  const whole = tunesCalled(tunes, text);
  if (whole.length > 0) return whole;
  const parts = text.split(',').map((name) => tunesCalled(tunes, name));
  return parts.some((each) => each.length === 0) ? [] : parts.flat();
};
