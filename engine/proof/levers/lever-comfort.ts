import { bisectLeft, least } from 'd3-array';
import { FAR_AHEAD_SECONDS, SHORTEST_LEAD_SECONDS } from '../../findings/catalogue/levers.ts';
import type { LeverContext } from '../../levers/context.ts';
import type { LeverMove, LeverPlan } from '../../levers/model.ts';
import { stepOf } from '../../music/pitch.ts';
import { compare, equals, type Rational, toNumber } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import { buildClock } from '../../score/bars/clock.ts';
import type { Need } from '../../sounding/needs.ts';
import { isPlace } from '../../time/moments.ts';
import { isInPause } from '../../time/pauses.ts';
import { FREE_SECONDS, type Unease } from '../comfort.ts';
import type { PedalTask } from '../marking-playback.ts';
import type { FixPlace } from '../model.ts';
import { alterWith, listBeside } from './lever-edits.ts';
import type { LeverFix } from './model.ts';
import type { LeverRepairInput } from './repair-levers.ts';
import type { StringPart } from './string-parts.ts';

/** As of pedals; `busy`: both hands are playing at its marking, though one is free before the note. */
export type LeverUneaseCause = Unease | 'busy';

/** A change that is right, and that the player would rather have elsewhere, with the move that takes it there. */
export interface LeverUnease {
  readonly part: StringPart;
  readonly task: PedalTask;
  readonly why: LeverUneaseCause;
  /** The note that sounds on, or that the change is for. */
  readonly note: Need;
  readonly fix: LeverFix;
}

/** A change that may be uneasy, and between which times it would be easier. */
interface Judged {
  readonly why: LeverUneaseCause;
  readonly note: Need;
  readonly after: Rational;
  readonly until: Rational;
}

/**
 * Changes that would bend a string, those that are marked later or earlier than is comfortable or while both hands play,
 * each once, where a hand is free at a better place and the move leaves no fault: the plan's, where the plan makes the same
 * change for the same note. What the plan for the notes alone has so too has a reason.
 *
 * @param plan asked for only where something is uneasy
 */
export const listUneasyLevers = (
  input: LeverRepairInput,
  plan: () => Pick<LeverPlan, 'moves'>,
): readonly LeverUnease[] => {
  const { parts, context, stated, tuning } = input;
  const { score } = context;
  const secondsAt = buildClock(score.tempo);
  const placesBetween = findFreePlaces(context);
  const isBusy = (at: Rational): boolean => isBusyAt(context, at);
  return parts.flatMap((part) => {
    const seen = new Set<number>();
    return part.played.tasks.flatMap((task): LeverUnease[] => {
      const { marking } = task;
      if (seen.has(marking) || !isMovable(part, task, input)) return [];
      seen.add(marking);
      const judged = judge(part, task, secondsAt, isBusy);
      if (judged === null || isPlanned(plan(), part, task)) return [];
      const planned = plannedFor(plan(), part, task);
      const place =
        planned === null ? easiest(judged, task, secondsAt, placesBetween) : placeWithin(judged, planned);
      if (place === null) return [];
      const { letter } = part.string;
      const moved = {
        views: [{ step: part.step, fixes: [{ kind: 'move', marking, letter, ...place }] }],
      } as const;
      if (input.trials.firstAdded([moved]) !== null) return [];
      const fix: LeverFix = {
        kind: 'move',
        beside: listBeside(stated, tuning, marking - 1, part.step),
        marking: marking - 1,
        string: part.string,
        alter: alterWith(tuning, part.string, task.to),
        ...place,
      };
      return [{ part, task, why: judged.why, note: judged.note, fix }];
    });
  });
};

/** A change with its note that is set so far ahead is at ease (as the plan has it). */
const COMFORTABLE_SECONDS = 0.5;

/** A name in a table, or that tells of several strings, stays where it is; come to by a jump, its time is not the printed one. */
const isMovable = (
  part: StringPart,
  { marking, before }: PedalTask,
  { context: { score }, stated, tuning }: LeverRepairInput,
): boolean =>
  marking > 0 &&
  // Between two movements there is time for anything.
  !isInPause(score, { ...part.score.markings[marking]!, graceNote: null }) &&
  score.leverWords[marking - 1]!.says?.isTable !== true &&
  compare(before.onset, part.score.markings[marking]!.at) >= 0 &&
  listBeside(stated, tuning, marking - 1, part.step)?.length === 0;

const judge = (
  part: StringPart,
  task: PedalTask,
  secondsAt: (at: Rational) => number,
  isBusy: (at: Rational) => boolean,
): Judged | null => {
  const { at } = part.score.markings[task.marking]!;
  const { onset } = task.before;
  const sounding = part.needs.findLast((need) => compare(need.onset, at) < 0 && need.position !== task.to);
  if (sounding !== undefined && compare(sounding.release, at) > 0)
    return { why: 'bends', note: sounding, after: sounding.release, until: onset };
  const lead = secondsAt(onset) - secondsAt(at);
  const isFree = sounding !== undefined && secondsAt(at) - secondsAt(sounding.release) >= FREE_SECONDS;
  if (lead < SHORTEST_LEAD_SECONDS && isFree)
    return { why: 'late', note: task.before, after: sounding.release, until: at };
  if (lead > FAR_AHEAD_SECONDS) return { why: 'early', note: task.before, after: at, until: onset };
  // The string is silent from the end of its last note on.
  const after = sounding?.release ?? at;
  return isBusy(at) ? { why: 'busy', note: task.before, after, until: onset } : null;
};

const isPlanned = (
  { moves }: Pick<LeverPlan, 'moves'>,
  part: StringPart,
  { marking, to }: PedalTask,
): boolean =>
  moves.some(
    (move) =>
      stepOf(move.string) === part.step &&
      (move.to === 'up') === (to === 1) &&
      equals(move.at, part.score.markings[marking]!.at),
  );

/** The change by which a plan serves the same note; null where it has another way. */
const plannedFor = (
  { moves }: Pick<LeverPlan, 'moves'>,
  part: StringPart,
  { to, before }: PedalTask,
): LeverMove | null => {
  const last = moves.findLast(
    (move) => stepOf(move.string) === part.step && compare(move.at, before.onset) <= 0,
  );
  return last !== undefined && (last.to === 'up') === (to === 1) && last.graceNote === null ? last : null;
};

/** The plan's place, where it is free of what is uneasy. */
const placeWithin = ({ after, until }: Judged, { at, bar, beat }: LeverMove): FixPlace | null =>
  compare(at, after) >= 0 && compare(at, until) < 0 ? { at, bar, beat } : null;

/** Where the plan has no change for the note: the first moment at which the string is silent, or the one nearest to a comfortable lead. */
const easiest = (
  { why, after, until }: Judged,
  { before }: PedalTask,
  secondsAt: (at: Rational) => number,
  placesBetween: (after: Rational, until: Rational) => readonly FixPlace[],
): FixPlace | null => {
  const places = placesBetween(after, until);
  if (why === 'bends') return places[0] ?? null;
  const lead = ({ at }: FixPlace): number => secondsAt(before.onset) - secondsAt(at);
  const inTime = places.filter((place) => lead(place) >= SHORTEST_LEAD_SECONDS);
  return least(inTime, (place) => Math.abs(lead(place) - COMFORTABLE_SECONDS)) ?? null;
};

/** Whether both hands play at a moment. */
const isBusyAt = ({ moments, free }: LeverContext, at: Rational): boolean => {
  const here = moments.all.findIndex((moment) => isPlace(moment) && equals(moment.at, at));
  return here !== -1 && free.left.isFree[here] !== 1 && free.right.isFree[here] !== 1;
};

/** Where a hand is free, from a time on up to another. */
const findFreePlaces = ({
  score,
  moments,
  free,
}: LeverContext): ((after: Rational, until: Rational) => readonly FixPlace[]) => {
  const times = moments.all.map(({ at }) => toNumber(at));
  return (after, until) => {
    const first = bisectLeft(times, toNumber(after));
    return moments.all.slice(first, bisectLeft(times, toNumber(until))).flatMap((moment, i) => {
      const { bar, at } = moment;
      const isFree = free.left.isFree[first + i] === 1 || free.right.isFree[first + i] === 1;
      return isPlace(moment) && isFree ? [{ bar, at, beat: beatAt(score.bars[bar]!, at) }] : [];
    });
  };
};
