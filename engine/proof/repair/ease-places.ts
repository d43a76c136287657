import type { Letter } from '../../music/pitch.ts';
import { equals, rationalKey } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { applyFixes } from '../apply-fixes.ts';
import type { UneasyMarking } from '../comfort.ts';
import type { FixPlace, MarkingFix } from '../model.ts';
import type { Trials } from '../trials.ts';
import type { DraftEdit } from './draft-edits.ts';

/** What the search for easier places needs besides the edits. */
export interface EaseInput {
  readonly score: Score;
  readonly trials: Trials;
  /** Changes of a part that are right and uneasy, by markings other than those of its file. */
  readonly listUneasy: (marked: Score) => readonly UneasyMarking[];
  /** The edits as one would make them in the file. */
  readonly groupsOf: (drafts: readonly DraftEdit[]) => readonly (readonly MarkingFix[])[];
}

/** Uneasy edits that are looked at, and places tried for each. */
const MOST_ROUNDS = 16;
const MOST_PLACES_TRIED = 8;

/**
 * Puts what the edits write where the player has it easiest: what a proof of the repaired part would tell as too late,
 * too early or under a sounding string goes elsewhere, alone or with all that is written with it, if that leaves no fault
 * and less to tell. No more edits are made than before.
 */
export const easePlaces = (drafts: readonly DraftEdit[], input: EaseInput): readonly DraftEdit[] => {
  let best = drafts;
  const settled = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const uneasy = listUneasyEdits(best, input);
    const next = uneasy.find(({ marking }) => !settled.has(keyOf(marking)));
    if (next === undefined) return best;
    settled.add(keyOf(next.marking));
    best = ease(best, next, uneasy.length, input) ?? best;
  }
  return best;
};

interface UneasyEdit {
  readonly marking: MarkingFix & FixPlace;
  readonly letter: Letter;
  readonly elsewhere: FixPlace;
}

const keyOf = ({ kind, at }: MarkingFix & FixPlace): string => `${kind} ${rationalKey(at)}`;

/** What the edits write, each with the place where it would be easier. */
const listUneasyEdits = (
  drafts: readonly DraftEdit[],
  { score, listUneasy, groupsOf }: EaseInput,
): readonly UneasyEdit[] => {
  const { markings, origins } = applyFixes(score.markings, groupsOf(drafts).flat());
  return listUneasy({ ...score, markings }).flatMap(({ task, fix }) => {
    const origin = origins[task.marking]!;
    return typeof origin === 'number' || !('at' in origin) || !('at' in fix)
      ? []
      : [{ marking: origin, letter: task.letter, elsewhere: { at: fix.at, bar: fix.bar, beat: fix.beat } }];
  });
};

const ease = (
  drafts: readonly DraftEdit[],
  edit: UneasyEdit,
  uneasy: number,
  input: EaseInput,
): readonly DraftEdit[] | null => {
  const { trials, groupsOf } = input;
  const known = groupsOf(drafts);
  const faults = trials.after(known.flat(), null)?.faults.size ?? 0;
  let best: readonly DraftEdit[] | null = null;
  let least = uneasy;
  for (const tried of putElsewhere(drafts, edit)) {
    const groups = groupsOf(tried);
    if (groups.length > known.length) continue;
    const outcome = trials.after(groups.flat(), null);
    if (outcome === null) break;
    if (outcome.faults.size > faults) continue;
    const left = listUneasyEdits(tried, input).length;
    if (left >= least) continue;
    best = tried;
    least = left;
  }
  return best;
};

/** The edits with what is uneasy at other places, each time together with what is written with it, and alone. */
const putElsewhere = (
  drafts: readonly DraftEdit[],
  { marking, letter, elsewhere }: UneasyEdit,
): readonly (readonly DraftEdit[])[] => {
  const together = drafts.flatMap((draft, index) => (isWrittenThere(draft, marking) ? [index] : []));
  const alone = together.filter((index) => letterOf(drafts[index]!) === letter);
  const options = [elsewhere, ...together.flatMap((index) => drafts[index]!.options)];
  const places = options.filter(
    ({ at }, i) => !equals(at, marking.at) && options.findIndex((other) => equals(other.at, at)) === i,
  );
  const ways = alone.length === together.length ? [together] : [together, alone];
  return places
    .slice(0, MOST_PLACES_TRIED)
    .flatMap((place) =>
      ways.map((way) => drafts.map((draft, index) => (way.includes(index) ? putAt(draft, place) : draft))),
    );
};

const letterOf = ({ edit }: DraftEdit): Letter | null => {
  if (edit.kind === 'add') return edit.letter;
  return edit.kind === 'move' ? edit.statement.letter : null;
};

/** Whether an edit writes a part of a marking. */
const isWrittenThere = ({ edit, place }: DraftEdit, marking: MarkingFix & FixPlace): boolean => {
  if (place === null || !equals(place.at, marking.at) || edit.kind !== marking.kind) return false;
  switch (marking.kind) {
    case 'move':
      return edit.kind === 'move' && edit.statement.marking === marking.marking;
    case 'move-marking':
      return edit.kind === 'move-marking' && edit.marking === marking.marking;
    default:
      return true;
  }
};

const putAt = (draft: DraftEdit, place: FixPlace): DraftEdit =>
  draft.edit.kind === 'move-marking'
    ? { ...draft, edit: { ...draft.edit, place }, place }
    : { ...draft, place };
