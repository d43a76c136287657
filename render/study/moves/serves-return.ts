import {
  compare,
  type MoveWindow,
  type Note,
  notesById,
  type Rational,
  type Score,
} from '../../../engine/index.ts';

/** A change of one pedal or lever, as far as it tells when it is made. */
interface TimedChange {
  readonly at: Rational;
  readonly bar: number;
  readonly window: MoveWindow;
}

/**
 * What a change has to do with a jump back. `for-return`: it is made for what comes after the jump, as before the sign that
 * ends a repeat: nothing before the jump needs it, and a note behind it does, before the pedal or lever is changed again.
 * `as-left`: before it no note needs the position in which the part begins, which is the one that the jump leaves.
 * `for-repeated`: no note needs it before the pedal or lever is changed again: it leaves what is repeated as the jump back does.
 */
export type RepeatPart = 'for-return' | 'as-left' | 'for-repeated' | null;

/**
 * Says what changes have to do with a jump back.
 *
 * @param changes all of one pedal or lever, in order of time
 * @param isOwn whether a note is played on a string of it
 */
export const repeatFinder = (
  { bars, notes, playOrder }: Pick<Score, 'bars' | 'notes' | 'playOrder'>,
  changes: readonly TimedChange[],
  isOwn: (note: Note) => boolean,
): ((change: TimedChange) => RepeatPart) => {
  const jumps = playOrder.flatMap((from, i) => {
    const to = playOrder[i + 1];
    return to === undefined || to > from ? [] : [{ from, to }];
  });
  if (jumps.length === 0) return () => null;
  const known = notesById(notes);
  const own = notes.filter((note) => note.role === 'played' && isOwn(note));
  const isNeededAfter = (to: number): boolean => {
    const start = bars[to]!.onset;
    const note = own.find(({ onset }) => compare(onset, start) >= 0);
    const changed = changes.find(({ at }) => compare(at, start) >= 0);
    return note !== undefined && (changed === undefined || compare(changed.at, note.onset) > 0);
  };
  return (change) => {
    const { at, bar, window } = change;
    const needed = window.before === null ? undefined : known.get(window.before.note)?.bar;
    const isChangedBefore = (jump: number): boolean =>
      changes.some((other) => other.bar <= jump && compare(other.at, at) > 0);
    const isForReturn = jumps.some(
      ({ from, to }) =>
        bar <= from && (needed === undefined || needed > from) && !isChangedBefore(from) && isNeededAfter(to),
    );
    if (isForReturn) return 'for-return';
    const until = window.before?.onset;
    const isChangedFirst = changes.some(
      (other) => compare(other.at, at) > 0 && until !== undefined && compare(other.at, until) <= 0,
    );
    if (isChangedFirst && jumps.some(({ from }) => bar <= from)) return 'for-repeated';
    const isAsLeft = jumps.some(({ from, to }) => to <= bar && bar <= from && isChangedBefore(from));
    return window.after === null && isAsLeft ? 'as-left' : null;
  };
};
