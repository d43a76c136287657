/** A bar as the file names it. */
export interface NamedBar {
  readonly name: string;
  /** The bar goes on from the one before or leads to the first: it takes no number of its own. */
  readonly uncounted: boolean;
}

/** A longer name is a program's: only the figures at its end are a number. */
const LONGEST_NUMBER = 5;

/**
 * The numbers by which people find the bars. A bar has the number that the file prints where that is usable; others are
 * counted between those that are, and where the numbers leave no room, a bar without one is part of the bar before
 * (common practice, no source). A file that numbers all bars alike numbers none, and one that would have no bar counted,
 * or none behind an upbeat, has all counted.
 *
 * @param bars in printed order
 * @example numberBars(['7', '', '9', ''].map((name) => ({ name, uncounted: false }))) // ['7', '8', '9', '10']
 */
export const numberBars = (bars: readonly NamedBar[]): readonly string[] => {
  const names = bars.map(({ name }) => usableNumber(name));
  const isAlike = bars.length > 1 && names[0] !== '' && names.every((name) => name === names[0]);
  const stated = isAlike ? names.map(() => '') : names;
  const countsSome = bars.some(({ uncounted }, bar) => !uncounted || Number(stated[bar] || 0) !== 0);
  const numbers: string[] = [];
  for (let bar = 0; bar < bars.length; ) {
    let end = bar;
    while (end < bars.length && stated[end] === '') end += 1;
    const counted = bars.slice(bar, end).map(({ uncounted }) => !(uncounted && countsSome));
    numbers.push(...countRun(counted, numbers.at(-1), stated[end]));
    if (end < bars.length) numbers.push(stated[end]!);
    bar = end + 1;
  }
  return numbers;
};

/** Numbers for bars in a row that have none, counted or not, between the numbers before and after them. */
const countRun = (
  run: readonly boolean[],
  before: string | undefined,
  after: string | undefined,
): readonly string[] => {
  const count = run.filter((isCounted) => isCounted).length;
  const next = countOf(after);
  let last = countOf(before) ?? (next === null ? 0 : Math.max(0, next - count - 1));
  const hasRoom = next === null || next <= last || next - last - 1 >= count;
  let number = before ?? `${last}`;
  return run.map((isCounted) => {
    if (isCounted && hasRoom) {
      last += 1;
      number = `${last}`;
    }
    return number;
  });
};

/** The figures with which a number begins, as a count; `12a` is 12. */
const countOf = (number: string | undefined): number | null => {
  const figures = /\d+/u.exec(number ?? '');
  return figures === null ? null : Number(figures[0]);
};

/** A number that people can look for: with a figure, and not made up by a program, as `X1` is. */
const usableNumber = (name: string): string => {
  const trimmed = name.trim();
  if (trimmed.length > LONGEST_NUMBER) return /\d{0,5}$/u.exec(trimmed)![0];
  return /\d/u.test(trimmed) && !/^X\d+$/iu.test(trimmed) ? trimmed : '';
};
