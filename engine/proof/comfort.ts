import { bisectLeft, bisector, least } from 'd3-array';
import { group } from '../group.ts';
import { isSetting } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { compare, equals, type Rational, toNumber } from '../music/rational.ts';
import type { Move, Plan } from '../pedals/model.ts';
import { beatAt } from '../score/bars/beats.ts';
import { buildClock } from '../score/bars/clock.ts';
import type { Score } from '../score/model/score.ts';
import type { Need } from '../sounding/needs.ts';
import { isPlace } from '../time/moments.ts';
import { isInPause } from '../time/pauses.ts';
import type { PedalTask } from './marking-playback.ts';
import type { FixPlace, MarkingFix } from './model.ts';
import type { PartEvents } from './part-events.ts';
import { addedFaults, type Trials } from './trials.ts';

/** A change that is right, and that the player would rather have elsewhere, with the move that takes it there. */
export interface UneasyMarking {
  readonly task: PedalTask;
  readonly why: Unease;
  /** The note that sounds on, or that the change is for. */
  readonly note: Need;
  readonly fix: MarkingFix;
}

/**
 * `bends`: a string of the pedal sounds on while it moves; `late`: it comes hard upon its note though there was time before;
 * `early`: it comes so long before its note that it must be kept in mind.
 */
export type Unease = 'bends' | 'late' | 'early';

/** Limits in seconds and bars (common practice, no source). */
const LATE_SECONDS = 0.2;
export const FREE_SECONDS = 2;
const IDLE_SECONDS = 1;
const EARLY_SECONDS = 20;
const EARLY_BARS = 8;
const COMFORTABLE_SECONDS = 1;

/** Notes of a pedal before its change that are looked at. */
const MOST_NOTES = 32;

/** What a change is judged by. */
interface ComfortInput {
  readonly score: Score;
  readonly tasks: readonly PedalTask[];
  readonly trials: Trials;
  readonly plan: () => Plan;
  /** Notes of a pedal before a time, the last of them. */
  readonly notesBefore: (letter: Letter, at: Rational) => readonly Need[];
  /** Places from a time on up to another at which a change may be printed, in order. */
  readonly placesBetween: (after: Rational, until: Rational) => readonly FixPlace[];
  /** Bars between two times in which the harp plays: over long rests a change is easily kept in mind. */
  readonly barsPlayed: (from: Rational, to: Rational) => number;
  /** Seconds between two times of the score, as they are printed. */
  readonly secondsBetween: (from: Rational, to: Rational) => number;
}

/**
 * Changes that are right and uneasy, each once, where another place would be easier and leave no fault: the plan's, where
 * the plan makes the same change for the same note. Only changes in words: a full setting stands where the reader wants one.
 *
 * @param disputed what is told otherwise: `marking letter`
 * @param plan for the notes alone; asked for only where something is uneasy
 */
export const listUneasy = (
  score: Score,
  part: PartEvents,
  needs: readonly Need[],
  tasks: readonly PedalTask[],
  trials: Trials,
  disputed: ReadonlySet<string>,
  plan: () => Plan,
): readonly UneasyMarking[] => {
  const input = { ...searchPart(score, part, needs), score, tasks, trials, plan };
  const seen = new Set<string>(disputed);
  return tasks.flatMap((task) => {
    const key = `${task.marking} ${task.letter}`;
    const { positions, ahead } = score.markings[task.marking]!;
    if (seen.has(key) || ahead || isSetting(positions)) return [];
    seen.add(key);
    // Where a plan for the notes alone has it too there is a reason for it.
    return judge(task, input).filter(() => !isPlanned(plan(), score, task));
  });
};

const isPlanned = ({ moves }: Plan, { markings }: Score, { letter, to, marking }: PedalTask): boolean =>
  moves.some((move) => move.letter === letter && move.to === to && equals(move.at, markings[marking]!.at));

/** The move by which a plan gives the note of a change the same position; null where it has another way. */
const plannedFor = ({ moves }: Plan, { letter, to, before }: PedalTask): Move | null => {
  const last = moves.findLast((move) => move.letter === letter && compare(move.at, before.onset) <= 0);
  return last !== undefined && last.to === to && last.graceNote === null ? last : null;
};

const searchPart = (
  score: Score,
  { moments }: PartEvents,
  needs: readonly Need[],
): Pick<ComfortInput, 'notesBefore' | 'placesBetween' | 'barsPlayed' | 'secondsBetween'> => {
  const secondsAt = buildClock(score.tempo);
  const onsets = moments.all.filter(isPlace);
  const times = onsets.map(({ at }) => toNumber(at));
  const between = (from: Rational, to: Rational) =>
    onsets.slice(bisectLeft(times, toNumber(from)), bisectLeft(times, toNumber(to)));
  const ofLetter = group(needs, ({ letter }) => letter);
  return {
    notesBefore: (letter, at) => {
      const own = ofLetter.get(letter) ?? [];
      const end = bisector((need: Need) => toNumber(need.onset)).left(own, toNumber(at));
      return own.slice(Math.max(0, end - MOST_NOTES), end);
    },
    placesBetween: (after, until) =>
      between(after, until).map(({ at, bar }) => ({ at, bar, beat: beatAt(score.bars[bar]!, at) })),
    barsPlayed: (from, to) =>
      new Set(between(from, to).flatMap(({ bar, notesPlucked }) => (notesPlucked > 0 ? [bar] : []))).size,
    secondsBetween: (from, to) => secondsAt(to) - secondsAt(from),
  };
};

const judge = (task: PedalTask, input: ComfortInput): readonly UneasyMarking[] => {
  const { score, secondsBetween } = input;
  const { at } = score.markings[task.marking]!;
  const { onset } = task.before;
  // Come to by a jump, its time is not the printed one.
  if (compare(onset, at) < 0) return [];
  // Between two movements there is time for anything.
  if (isInPause(score, { ...score.markings[task.marking]!, graceNote: null })) return [];
  const sounding = lastSounding(input.notesBefore(task.letter, at), task, at);
  const lead = secondsBetween(at, onset);
  if (sounding !== null && compare(sounding.release, at) > 0)
    return easier(task, 'bends', sounding, [sounding.release, onset], input);
  const isFree = sounding !== null && secondsBetween(sounding.release, at) >= FREE_SECONDS;
  if (lead < LATE_SECONDS && isFree && isIdle(task, input.tasks) && !isBound(task, at, input))
    return easier(task, 'late', task.before, [sounding.release, at], input);
  if (lead > EARLY_SECONDS && input.barsPlayed(at, onset) > EARLY_BARS)
    return easier(task, 'early', task.before, [at, onset], input);
  return [];
};

/** Of the notes that a pedal has played before its change the one whose string sounds longest; null for none. */
const lastSounding = (needs: readonly Need[], { to }: PedalTask, at: Rational): Need | null =>
  needs
    .filter((need) => need.position !== to || compare(need.release, at) > 0)
    .reduce<Need | null>(
      (last, need) => (last === null || compare(need.release, last.release) > 0 ? need : last),
      null,
    );

/** Whether the foot does nothing else at about that time. */
const isIdle = ({ foot, letter, release }: PedalTask, tasks: readonly PedalTask[]): boolean =>
  !tasks.some(
    (other) =>
      other.foot === foot && other.letter !== letter && Math.abs(other.release - release) < IDLE_SECONDS,
  );

/** Whether it is printed with the change of another pedal that has sounded until now: the two are read as one. */
const isBound = ({ letter }: PedalTask, at: Rational, { score, tasks, ...input }: ComfortInput): boolean =>
  tasks.some((other) => {
    if (other.letter === letter || !equals(score.markings[other.marking]!.at, at)) return false;
    const sounding = lastSounding(input.notesBefore(other.letter, at), other, at);
    return sounding !== null && input.secondsBetween(sounding.release, at) < LATE_SECONDS;
  });

/** The place of the plan's own change, or else the easiest there is, if it is easier and does no harm. */
const easier = (
  task: PedalTask,
  why: Unease,
  note: Need,
  [after, until]: readonly [Rational, Rational],
  { score, trials, plan, placesBetween, secondsBetween }: ComfortInput,
): readonly UneasyMarking[] => {
  const { marking, letter } = task;
  const { onset } = task.before;
  const unease = ({ at }: Pick<FixPlace, 'at'>): number =>
    Math.abs(secondsBetween(at, onset) - COMFORTABLE_SECONDS);
  const planned = plannedFor(plan(), task);
  const places =
    planned === null
      ? placesBetween(after, until).filter((place) => secondsBetween(place.at, onset) >= LATE_SECONDS)
      : [planned].filter(
          ({ at }) =>
            compare(at, after) >= 0 &&
            compare(at, until) < 0 &&
            (why === 'bends' || unease(planned) < unease(score.markings[marking]!)),
        );
  const to = least(places, unease);
  if (to === undefined) return [];
  const fix: MarkingFix = { kind: 'move', marking, letter, at: to.at, bar: to.bar, beat: to.beat };
  const outcome = trials.after([fix], letter);
  const isHarmless = outcome !== null && addedFaults(trials.before(letter), outcome).length === 0;
  return isHarmless ? [{ task, why, note, fix }] : [];
};
