import {
  buildTimeline,
  CONCERT_HARP,
  createReplanner,
  type Decisions,
  memoizeNeeds,
  type PedalHarpProfile,
  type Plan,
  type PlayerChoice,
  pedalOptionsFor,
  placeDecisions,
  prepareScore,
  type Score,
  type SpellingNeeds,
  takeShare,
  toNumber,
} from '../../../../engine/index.ts';
import { withoutLost } from '../decisions/decision-edits.ts';
import type { PlanChoices } from '../options/choices.ts';
import { rangesOf } from './allowed-moments.ts';
import type { PedalNeed, Planning } from './planned-part.ts';

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

type PartPlanner = (decisions: Decisions, choices: PlanChoices) => Planning;

/**
 * Plans one part again and again by what the user decides and chooses. Needs that are the same as the time before are
 * the same list.
 */
export const createPartPlanner = (score: Score, profile: PedalHarpProfile = CONCERT_HARP): PartPlanner => {
  const ofPlayer = new Map<PlayerChoice, PartPlanner>();
  return (decisions, choices) => {
    const { player } = choices;
    const planner = ofPlayer.get(player) ?? createSharePlanner(takeShare(score, player), profile);
    ofPlayer.set(player, planner);
    return planner(decisions, choices);
  };
};

/** Plans the notes of one player, or of all. */
const createSharePlanner = (score: Score, profile: PedalHarpProfile): PartPlanner => {
  const replan = createReplanner(score);
  const inTime = buildTimeline(score);
  const ask = memoizeNeeds();
  let known: SpellingNeeds | null = null;
  let needs: readonly PedalNeed[] = [];
  return (decisions, choices) => {
    const placed = placeDecisions(score, decisions);
    const { pins, respelled, omitted } = placed;
    const options = { ...pedalOptionsFor(choices), profile, pins, respelled, omitted };
    const plan = replan(options);
    const prepared = prepareScore(score, options, inTime);
    const asked = ask(prepared, stringsOf(plan));
    if (asked !== known) needs = listNeeds(asked);
    known = asked;
    return {
      plan,
      needs,
      ranges: rangesOf(prepared, asked, plan),
      omitted,
      inForce: withoutLost(decisions, placed.unplaced),
      lost: placed.unplaced.map(({ sentence }) => sentence),
    };
  };
};
