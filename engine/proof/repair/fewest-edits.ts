import { POSITIONS } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { isPlace, type Moments } from '../../time/moments.ts';
import { editsIn, type GivenChanges } from '../letter/letter-edits.ts';
import type { LetterTrack, Statement } from '../letter/letter-track.ts';
import { type PartDraft, tryGiven } from './part-draft.ts';

/** A stretch in which one pedal must be edited, whatever is done elsewhere: from a note that it serves to one it fails. */
export interface Stretch {
  readonly letter: Letter;
  /** Null: from the start. */
  readonly from: Rational | null;
  readonly to: Rational;
}

/**
 * A number of edits that no repair goes below.
 *
 * No pedal needs fewer than its own exact repair. Where the part is read straight through, a pedal that serves one note
 * and fails the next of another position has to be edited between the two; of such stretches as many edits are needed
 * as there are that no edit can reach two of.
 *
 * @param base each pedal repaired by itself
 */
export const fewestEdits = (score: Score, moments: Moments, base: PartDraft): number => {
  const own = [...base.repairs].map(([letter, { cost }]) => [letter, editsIn(cost)] as const);
  const most = Math.max(...own.map(([, edits]) => edits));
  const isStraight = score.playOrder.every((bar, i) => bar === i);
  if (!isStraight || score.markings.some(({ ahead }) => ahead)) return most;
  const stretches = [...base.tracks.values()]
    .flatMap(listStretches)
    .sort((a, b) => compare(a.to, b.to) || (a.from === null ? -1 : 1));
  const apart: Stretch[] = [];
  for (const stretch of stretches)
    if (apart.every((other) => !canShare(score, stretch, other))) apart.push(stretch);
  const beside = own.map(([letter, edits]) => {
    const isAlone = (stretch: Stretch): boolean =>
      stretch.letter !== letter && !helpsIn(score, moments, base, letter, stretch);
    return edits > 0 && edits + 1 > apart.length && stretches.some(isAlone) ? edits + 1 : 0;
  });
  return Math.max(most, apart.length, ...beside);
};

/** Stretches of one pedal, straight through the print. */
export const listStretches = ({ letter, bars }: LetterTrack): readonly Stretch[] => {
  const found: Stretch[] = [];
  let stands: number | null = null;
  const lastAt = new Map<number, Rational>();
  for (const { at, statements, needs } of bars.flat()) {
    stands = statements.at(-1)?.position ?? stands;
    for (const need of needs) {
      if (stands !== need) found.push({ letter, from: latestOther(lastAt, need), to: at });
    }
    for (const need of needs) lastAt.set(need, at);
  }
  return found;
};

const latestOther = (lastAt: ReadonlyMap<number, Rational>, need: number): Rational | null =>
  [...lastAt].reduce<Rational | null>(
    (latest, [position, at]) =>
      position === need || (latest !== null && compare(at, latest) <= 0) ? latest : at,
    null,
  );

export const isIn = ({ from, to }: Stretch, at: Rational): boolean =>
  compare(at, to) <= 0 && (from === null || compare(from, at) <= 0);

/** Whether one edit may reach both: they overlap, or a marking that names both pedals can leave one for the other. */
const canShare = ({ markings }: Score, one: Stretch, other: Stretch): boolean =>
  isIn(one, other.to) ||
  isIn(other, one.to) ||
  markings.some(
    ({ at, positions }) =>
      (isIn(one, at) || isIn(other, at)) &&
      positions[one.letter] !== undefined &&
      positions[other.letter] !== undefined,
  );

/** Places of a stretch that are tried: of a longer one it is not known. */
const MOST_PLACES = 40;

/** Whether an edit that reaches the stretch of another pedal may spare this one an edit; true where it is not known. */
const helpsIn = (
  { markings }: Score,
  { all }: Moments,
  base: PartDraft,
  letter: Letter,
  stretch: Stretch,
): boolean => {
  const places = all.filter((moment) => isPlace(moment) && isIn(stretch, moment.at));
  if (places.length > MOST_PLACES) return true;
  const statements = base.tracks.get(letter)!.bars.flatMap((bar) => bar.flatMap((step) => step.statements));
  const spares = (given: Partial<GivenChanges>): boolean =>
    editsIn(tryGiven(base, letter, given).repair.cost) < editsIn(base.repairs.get(letter)!.cost);
  const said = (position: Statement['position'], { bar, at }: (typeof places)[number]) => [
    { bar, at, position, inWords: true },
  ];
  return (
    places.some((place) => POSITIONS.some((position) => spares({ also: said(position, place) }))) ||
    statements.some((statement) => isIn(stretch, statement.at) && spares({ without: [statement] })) ||
    statements.some(
      (statement) =>
        markings[statement.marking]!.positions[stretch.letter] !== undefined &&
        (isIn(stretch, statement.at) ||
          places.some((place) => spares({ without: [statement], also: said(statement.position, place) }))),
    )
  );
};
