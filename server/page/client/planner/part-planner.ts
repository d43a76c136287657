import {
  buildClock,
  buildTimeline,
  CONCERT_HARP,
  createReplanner,
  type Decisions,
  decidedOptionsFor,
  delayNotes,
  drawbacksOf,
  leadSecondsOf,
  memoizeNeeds,
  type PedalHarpProfile,
  type Plan,
  type PlayerChoice,
  placeDecisions,
  prepareScore,
  type Rational,
  type Score,
  type SlowPassage,
  type SpellingNeeds,
  slowDown,
  takeShare,
  toNumber,
  withoutUnplaced,
} from '../../../../engine/index.ts';
import type { PlanChoices } from '../options/choices.ts';
import { rangesOf } from './allowed-moments.ts';
import type { PedalNeed, Planning } from './planned-part.ts';
import { createSlowedHearing, keepLatest } from './slowed-hearing.ts';

const listNeeds = ({ listed }: SpellingNeeds): readonly PedalNeed[] =>
  listed.needs
    .map(({ letter, position, note, onset, heldUntil }) => ({
      letter,
      position,
      note: note.id,
      onsetQuarters: toNumber(onset),
      heldUntilQuarters: toNumber(heldUntil),
    }))
    .sort((a, b) => a.onsetQuarters - b.onsetQuarters);

const stringsOf = ({ respellings }: Plan) => new Map(respellings.map(({ note, to }) => [note, to]));

const nameDrawbacks = ({ tempo }: Score, { moves }: Plan): readonly (readonly string[])[] => {
  const secondsAt = buildClock(tempo);
  return moves.map((move) => drawbacksOf(move, leadSecondsOf(move, secondsAt)).map(({ name }) => name));
};

/** Plans the notes of one player, or of all. */
type SharePlanner = (decisions: Decisions, choices: PlanChoices) => Omit<Planning, 'slowedHearing'>;

type PartPlanner = (decisions: Decisions, choices: PlanChoices) => Planning;

/**
 * Plans one part again and again by what the user decides and chooses. Needs that are the same as the time before are
 * the same list.
 */
export const createPartPlanner = (score: Score, profile: PedalHarpProfile = CONCERT_HARP): PartPlanner => {
  const ofPlayer = new Map<PlayerChoice, SharePlanner>();
  const hear = createSlowedHearing(score);
  return (decisions, choices) => {
    const { player } = choices;
    const planner = ofPlayer.get(player) ?? createSharePlanner(takeShare(score, player), profile);
    ofPlayer.set(player, planner);
    const planned = planner(decisions, choices);
    return { ...planned, slowedHearing: hear(planned.inForce) };
  };
};

/** When notes sound, by what was decided, as plain data. */
interface Timing {
  readonly tempos: readonly SlowPassage[];
  readonly delays: readonly (readonly [id: string, at: Rational])[];
}

/** What is worked out once for all plans with the notes at the same times. */
const startAtTempo = (score: Score) => ({
  score,
  replan: createReplanner(score),
  inTime: buildTimeline(score),
});

const createSharePlanner = (share: Score, profile: PedalHarpProfile): SharePlanner => {
  const atTimes = keepLatest(({ tempos, delays }: Timing) =>
    startAtTempo(delayNotes(slowDown(share, tempos), new Map(delays))),
  );
  const ask = memoizeNeeds();
  let known: SpellingNeeds | null = null;
  let needs: readonly PedalNeed[] = [];
  return (decisions, choices) => {
    const placed = placeDecisions(share, decisions);
    const { score, replan, inTime } = atTimes({ tempos: placed.tempos, delays: [...placed.delays] });
    const options = decidedOptionsFor(choices, profile, placed);
    const plan = replan(options);
    const prepared = prepareScore(score, options, inTime);
    const asked = ask(prepared, stringsOf(plan));
    if (asked !== known) needs = listNeeds(asked);
    known = asked;
    return {
      plan,
      needs,
      ranges: rangesOf(prepared, asked, plan),
      drawbacks: nameDrawbacks(score, plan),
      omitted: placed.omitted,
      inForce: withoutUnplaced(decisions, placed.unplaced),
      lost: placed.unplaced.map(({ sentence }) => sentence),
    };
  };
};
