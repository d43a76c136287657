import type { Position } from '../../harp/setting.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import { compare, equals, type Rational } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import type { Need } from '../../sounding/needs.ts';
import type { Statement } from '../letter/letter-track.ts';
import type { PedalTask } from '../marking-playback.ts';
import type { FixPlace, MarkingFix } from '../model.ts';
import type { TrialOutcome, Trials } from '../trials.ts';
import type { DraftEdit } from './draft-edits.ts';
import type { Places } from './place-edits.ts';

/** What the search for time needs besides the edits. */
export interface FeetInput {
  readonly score: Score;
  readonly needs: readonly Need[];
  readonly trials: Trials;
  readonly places: Places;
  readonly fixesOf: (drafts: readonly DraftEdit[]) => readonly MarkingFix[];
}

/** Changes of one foot this near to a late one may give way to it, in seconds. */
const NEAR_SECONDS = 2;

/** Late changes that are looked at, and places tried for each change. */
const MOST_ROUNDS = 24;
const MOST_PLACES_TRIED = 6;

/** Changes near a late one that are tried elsewhere, and times that the part is played in all. */
const MOST_NEAR = 5;
const MOST_TRIALS = 150;

/**
 * Gives the feet time: where a change comes too late, it or its neighbours are put elsewhere, first those that are
 * edited anyway. Each step is proved by playing the part, and taken only if it leaves fewer faults.
 */
export const giveFeetTime = (drafts: readonly DraftEdit[], input: FeetInput): readonly DraftEdit[] => {
  const { trials, fixesOf } = input;
  let best = drafts;
  let outcome = trials.after(fixesOf(best), null);
  const tries = { left: MOST_TRIALS };
  for (let round = 0; round < MOST_ROUNDS && outcome !== null && outcome.late.length > 0; round += 1) {
    const next = improve(best, outcome, input, tries);
    if (next === null) break;
    best = next.drafts;
    outcome = next.outcome;
  }
  return best;
};

const improve = (
  drafts: readonly DraftEdit[],
  outcome: TrialOutcome,
  input: FeetInput,
  tries: { left: number },
): { readonly drafts: readonly DraftEdit[]; readonly outcome: TrialOutcome } | null => {
  let best: { drafts: readonly DraftEdit[]; outcome: TrialOutcome; edits: number } | null = null;
  for (const late of outcome.late) {
    const near = outcome.tasks
      .filter((task) => task.foot === late.foot && Math.abs(task.deadline - late.deadline) <= NEAR_SECONDS)
      .sort((a, b) => Math.abs(a.deadline - late.deadline) - Math.abs(b.deadline - late.deadline))
      .slice(0, MOST_NEAR);
    for (const tried of near.flatMap((task) => elsewhere(drafts, outcome, task, input))) {
      tries.left -= 1;
      const found = tries.left < 0 ? null : input.trials.after(input.fixesOf(tried), null);
      if (found === null) return best;
      const most = best?.outcome.faults.size ?? outcome.faults.size;
      const isBetter =
        found.faults.size < most ||
        (best !== null && found.faults.size === most && tried.length < best.edits);
      if (isBetter) best = { drafts: tried, outcome: found, edits: tried.length };
      if (isBetter && found.late.length < outcome.late.length && tried.length === drafts.length) return best;
    }
    if (best !== null) return best;
  }
  return best;
};

/** The edits with one change put elsewhere, in all ways that are tried. */
const elsewhere = (
  drafts: readonly DraftEdit[],
  { fixed }: TrialOutcome,
  task: PedalTask,
  input: FeetInput,
): readonly (readonly DraftEdit[])[] => {
  const origin = fixed.origins[task.marking]!;
  const { letter } = task;
  if (typeof origin !== 'number') {
    const index = drafts.findIndex(
      ({ edit, place }) =>
        (edit.kind === 'add' || edit.kind === 'move') &&
        (edit.kind === 'add' ? edit.letter : edit.statement.letter) === letter &&
        place !== null &&
        equals(place.at, fixed.markings[task.marking]!.at),
    );
    const draft = drafts[index];
    if (draft === undefined) return [];
    return others(draft.options, draft.place!.at).map((place) => drafts.with(index, { ...draft, place }));
  }
  const { onset, note } = task.before;
  const window = { ...freeFrom(input.needs, letter, task.before), until: onset, bar: note.bar };
  const options = input.places.within(letter, task.to, window);
  const edits = [
    ...[origin, repeatedAfter(input.score, origin, letter, task.to)].flatMap((index) =>
      index === null || isEdited(drafts, index) ? [] : nameIn(input.score, index, letter),
    ),
    ...(isFullSetting(input.score, origin) ? ['new' as const] : []),
  ];
  return edits.flatMap((name) =>
    others(options, input.score.markings[origin]!.at).map((place): readonly DraftEdit[] => [
      ...drafts,
      name === 'new'
        ? { edit: { kind: 'add', letter, position: task.to, window }, place, options }
        : { edit: { kind: 'move', statement: name, window }, place, options },
    ]),
  );
};

const isEdited = (drafts: readonly DraftEdit[], marking: number): boolean =>
  drafts.some(({ edit }) => 'statement' in edit && edit.statement.marking === marking);

const isFullSetting = ({ markings }: Score, marking: number): boolean =>
  LETTERS.every((letter) => markings[marking]!.positions[letter] !== undefined);

/** What a marking in words says of a pedal. */
const nameIn = (score: Score, marking: number, letter: Letter): readonly Statement[] => {
  const { at, bar, positions } = score.markings[marking]!;
  const position = positions[letter];
  if (position === undefined || isFullSetting(score, marking)) return [];
  return [{ marking, letter, position, at, bar, inSetting: false, onlyAt: null }];
};

/** The next marking of the pedal, if it says the same again a few bars later: it may have come too late. */
const repeatedAfter = (
  { markings }: Score,
  marking: number,
  letter: Letter,
  position: Position,
): number | null => {
  const next = markings.findIndex(
    ({ positions }, index) => index > marking && positions[letter] !== undefined,
  );
  if (next < 0 || markings[next]!.bar - markings[marking]!.bar > MOST_BARS_LATER) return null;
  return markings[next]!.positions[letter] === position ? next : null;
};

const MOST_BARS_LATER = 4;

const others = (options: readonly FixPlace[], at: Rational): readonly FixPlace[] =>
  options.filter((place) => !equals(place.at, at)).slice(0, MOST_PLACES_TRIED);

/** Behind the last note that needs the pedal elsewhere. */
const freeFrom = (
  needs: readonly Need[],
  letter: Letter,
  { onset, position }: Need,
): { readonly after: Rational | null; readonly closed: boolean } => {
  let after: Rational | null = null;
  let closed = false;
  for (const need of needs) {
    if (need.letter !== letter || need.position === position || compare(need.onset, onset) >= 0) continue;
    const isHeld = compare(need.onset, need.heldUntil) < 0;
    const end = isHeld ? need.heldUntil : need.onset;
    if (after !== null && compare(end, after) < 0) continue;
    after = end;
    closed = isHeld;
  }
  return { after, closed };
};
