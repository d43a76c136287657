/** Titles and names in one line: each once, those that are empty left out. */
export const joinTitles = (...names: readonly string[]): string =>
  [...new Set(names)].filter((name) => name !== '').join(' · ');

/**
 * A piece in one line: the work, and which piece of it, as `Three Weirs, Op. 9 · Low Water`. That is the first line under
 * the title; where a pupil is told something, it follows there.
 *
 * @returns empty where the file names neither
 */
export const namePiece = ({
  title,
  subtitle,
}: {
  readonly title: string;
  readonly subtitle: string;
}): string => joinTitles(title, subtitle.split('\n')[0]!);
