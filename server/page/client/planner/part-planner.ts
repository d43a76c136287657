import type { Work } from '../../../../engine/decisions/model.ts';
import { placeWork } from '../../../../engine/decisions/place-work.ts';
import type { PedalHarpProfile } from '../../../../engine/harp/profile.ts';
import { CONCERT_HARP } from '../../../../engine/harp/profiles/concert-harp.ts';
import { toNumber } from '../../../../engine/music/rational.ts';
import type { Plan } from '../../../../engine/pedals/model.ts';
import { pedalOptionsFor } from '../../../../engine/pedals/options.ts';
import { type Asked, memoizeNeeds, prepareScore } from '../../../../engine/pedals/prepared.ts';
import { createReplanner } from '../../../../engine/pedals/replan.ts';
import type { Score } from '../../../../engine/score/model.ts';
import { setInTime } from '../../../../engine/time/timeline.ts';
import { withoutLost } from '../decisions/work-edits.ts';
import type { PlanChoices } from '../options/choices.ts';
import { rangesOf } from './allowed-moments.ts';
import type { PedalNeed, Planning } from './planned-part.ts';

const listNeeds = ({ listed }: Asked): readonly PedalNeed[] =>
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

/**
 * Plans one part again and again by what the user decides and chooses. Needs that are the same as the time before are
 * the same list.
 */
export const createPartPlanner = (
  score: Score,
  profile: PedalHarpProfile = CONCERT_HARP,
): ((work: Work, choices: PlanChoices) => Planning) => {
  const replan = createReplanner(score);
  const inTime = setInTime(score);
  const ask = memoizeNeeds();
  let known: Asked | null = null;
  let needs: readonly PedalNeed[] = [];
  return (work, choices) => {
    const placed = placeWork(score, work);
    const { pins, respelled, leftOut } = placed;
    const options = { ...pedalOptionsFor(choices), profile, pins, respelled, leftOut };
    const plan = replan(options);
    const prepared = prepareScore(score, options, inTime);
    const asked = ask(prepared, stringsOf(plan));
    if (asked !== known) needs = listNeeds(asked);
    known = asked;
    return {
      plan,
      needs,
      ranges: rangesOf(prepared, asked, plan),
      leftOut,
      inForce: withoutLost(work, placed.lost),
      lost: placed.lost.map(({ sentence }) => sentence),
    };
  };
};
