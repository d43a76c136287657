import { type Move, toNumber } from '../../../../engine/index.ts';
import type { BarPlace, PlannedPart, ReadPart } from './planned-part.ts';

/** A note that bounds the stretch in which a move may be made. */
interface BoundingNote {
  /** Its id; null where none is known by name. */
  readonly note: string | null;
  readonly quarters: number;
}

/** What lets a move of either harp come no earlier and no later. */
export interface MoveBounds {
  /** When it is made, in quarters. */
  readonly now: number;
  readonly graceNote: string | null;
  /** The last note that needs the old position, and the first that needs the new one; null for none. */
  readonly after: BoundingNote | null;
  readonly before: BoundingNote | null;
  /** When the other moves of the same pedal or lever are made, in quarters. */
  readonly own: readonly number[];
}

/** The bar behind the pause before which a move does not go back, since all is set there; null where a note bounds it. */
export const pauseBounding = (
  { bars }: Pick<ReadPart, 'bars'>,
  { now, after }: Pick<MoveBounds, 'now' | 'after'>,
): BarPlace | null => {
  const pause = bars.findLast(({ afterPause, onsetQuarters }) => afterPause && onsetQuarters <= now);
  return pause === undefined || (after !== null && after.quarters >= pause.onsetQuarters) ? null : pause;
};

/** Whether a move is made in a pause between two movements. */
export const isMadeInPause = (part: Pick<ReadPart, 'bars'>, bounds: MoveBounds): boolean =>
  bounds.graceNote === null && pauseBounding(part, bounds)?.onsetQuarters === bounds.now;

/** From when on a move may be made, in quarters: what a chart shows of it. */
export const beginningOf = (part: Pick<ReadPart, 'bars'>, bounds: MoveBounds): number =>
  pauseBounding(part, bounds)?.onsetQuarters ?? bounds.after?.quarters ?? 0;

const boundBy = (end: Move['window']['after']): BoundingNote | null =>
  end === null ? null : { note: end.note, quarters: toNumber(end.onset) };

/** What bounds a move of a plan for the pedal harp. */
export const boundsOf = ({ plan: { moves } }: Pick<PlannedPart, 'plan'>, at: number): MoveBounds => {
  const { letter, at: time, graceNote, window } = moves[at]!;
  return {
    now: toNumber(time),
    graceNote,
    after: boundBy(window.after),
    before: boundBy(window.before),
    own: moves.filter((move, i) => i !== at && move.letter === letter).map((move) => toNumber(move.at)),
  };
};
