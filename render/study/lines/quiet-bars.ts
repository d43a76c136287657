import type { BarMark, RepeatSigns } from './bar-marks.ts';
import { type Placed, type Stretch, stretchOf } from './columns.ts';
import { REPEAT_EM } from './repeat-signs.ts';

/** How bars in which nothing moves are told as one. */
export interface JoinedBars {
  /** Fewer bars than this are told one by one; 1 for none. */
  readonly least: number;
  readonly widthEm: number;
  /** Whether bars of rest are told apart from those that are played. */
  readonly bySilence: boolean;
}

/**
 * Bars with moves as they are, and those between them as one, up to a rehearsal mark or the sign of a repeat or of an ending.
 *
 * @param marks of the bars from `first` on
 */
export const joinQuietBars = <M extends Placed>(
  marks: readonly Pick<
    BarMark<M>,
    'moves' | 'rehearsal' | 'repeat' | 'silent' | 'isCounted' | 'leastEm' | 'rangeEm' | 'leavesEm'
  >[],
  first: number,
  { least, widthEm, bySilence }: JoinedBars,
  barAt: (bar: number) => Stretch<M>,
): readonly Stretch<M>[] => {
  const runs: { readonly from: number; until: number; readonly quiet: boolean }[] = [];
  for (const [index, { moves, rehearsal, repeat, silent, isCounted }] of marks.entries()) {
    const open = runs.at(-1);
    const quiet = moves.length === 0;
    // The silent rest of a divided bar is no rest of its own.
    const isAlike =
      !bySilence || (silent && !isCounted) || (open !== undefined && marks[open.from]!.silent === silent);
    const joins = quiet && open?.quiet === true && rehearsal === '' && !repeat.parts && isAlike;
    if (joins) open.until = index;
    else runs.push({ from: index, until: index, quiet });
  }
  const stretches = runs.flatMap(({ from, until, quiet }): readonly Stretch<M>[] => {
    const own = marks.slice(from, until + 1);
    if (!quiet || own.length < least) return own.map((_, i) => barAt(first + from + i));
    const { leastEm, rangeEm } = own[0]!;
    const width = Math.max(
      widthEm,
      ...(own.length > 1 ? [rangeEm, leastEm + own.at(-1)!.leavesEm] : [leastEm]),
    );
    return [{ ...stretchOf<M>(first + from, [], width), until: first + until }];
  });
  return stretches.map((each) =>
    withRepeats(each, marks[each.from - first]!.repeat, marks[each.until - first]!.repeat),
  );
};

/** A stretch with room for the signs of its repeats. */
const withRepeats = <M extends Placed>(
  stretch: Stretch<M>,
  { starts }: RepeatSigns,
  { ends }: RepeatSigns,
): Stretch<M> => {
  const [leadEm, tailEm] = [starts ? REPEAT_EM : 0, ends ? REPEAT_EM : 0];
  return { ...stretch, leadEm, tailEm, widthEm: leadEm + stretch.widthEm + tailEm };
};
