import type { Letter } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import { isInside, type LetterTrack, type MarkingWindow, type TrackStep } from './letter-track.ts';
import type { BarPasses } from './passes.ts';
import {
  type GivenChanges,
  type LetterEdit,
  type LetterRepair,
  REPAIR_PRICES,
  repairLetter,
} from './repair-letter.ts';

type AddEdit = LetterEdit & { readonly kind: 'add' };

/** An edit, the new marking that would do instead, and what is left to do beside that. */
interface Alternative {
  readonly letter: Letter;
  readonly isAdded: boolean;
  readonly add: AddEdit;
  readonly rest: LetterRepair;
}

/** More edits than a few are not joined. */
const MOST_EDITS = 16;

/** New markings further apart than this are not printed as one. */
const MOST_BARS_APART = 1;

/**
 * Prints changes of several pedals as one new marking, where each of them would do as well in a place that they share:
 * a marking left out that said several pedals is one edit, though each pedal alone could be put right otherwise.
 */
export const joinAdditions = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  passes: readonly BarPasses[],
  base: ReadonlyMap<Letter, LetterRepair>,
  given: ReadonlyMap<Letter, GivenChanges>,
): ReadonlyMap<Letter, LetterRepair> => {
  const edits = [...base.values()].flatMap(({ letter, edits: own }) => own.map((edit) => ({ letter, edit })));
  if (edits.length < 2 || edits.length > MOST_EDITS) return base;
  const alternatives = edits.flatMap(({ letter, edit }) =>
    alternativeOf(edit, base.get(letter)!, tracks.get(letter)!, passes, given.get(letter)),
  );
  const repairs = new Map(base);
  const joined = new Set<Letter>();
  for (const first of alternatives) {
    if (joined.has(first.letter)) continue;
    const group = [first];
    for (const other of alternatives) {
      if (
        !joined.has(other.letter) &&
        group.every((each) => each.letter !== other.letter) &&
        canShare(group, other)
      )
        group.push(other);
    }
    if (group.length < 2 || group.every(({ isAdded }) => isAdded)) continue;
    for (const { letter, add, rest } of group) {
      joined.add(letter);
      repairs.set(letter, { ...rest, edits: [...rest.edits, add], cost: rest.cost + REPAIR_PRICES.edit });
    }
  }
  return repairs;
};

const canShare = (group: readonly Alternative[], { add }: Alternative): boolean => {
  const windows = [...group.map((each) => each.add.window), add.window];
  const earliest = windows.reduce((first, each) => (compare(each.until, first.until) < 0 ? each : first));
  return windows.every(
    (window) => isInside(window, earliest.until) && window.bar - earliest.bar <= MOST_BARS_APART,
  );
};

/** A new marking for the first note that the edit serves, where with it the pedal needs an edit less. */
const alternativeOf = (
  edit: LetterEdit,
  repair: LetterRepair,
  track: LetterTrack,
  passes: readonly BarPasses[],
  known: GivenChanges = { without: [], also: [] },
): readonly Alternative[] => {
  if (edit.kind === 'remove') return [];
  const { letter } = repair;
  const position = edit.kind === 'move' ? edit.statement.position : edit.position;
  const step =
    edit.kind === 'add' || edit.kind === 'move'
      ? stepOf(track, edit.window)
      : stepFrom(track, edit.statement.bar, edit.statement.at, position);
  if (step === undefined || step.window === null) return [];
  const also = [...known.also, { step, position, inWords: true }];
  const rest = repairLetter(track, passes, { ...known, also });
  if (rest.unmet > repair.unmet || rest.cost + REPAIR_PRICES.edit > repair.cost + MOST_UNLIKELY) return [];
  return [
    {
      letter,
      isAdded: edit.kind === 'add',
      add: { kind: 'add', letter, position, window: step.window },
      rest,
    },
  ];
};

/** What an edit may be less likely, and no more of them. */
const MOST_UNLIKELY = REPAIR_PRICES.edit / 2;

const stepOf = ({ bars }: LetterTrack, window: MarkingWindow): TrackStep | undefined =>
  bars[window.bar]!.find((step) => step.window === window);

const stepFrom = (
  { bars }: LetterTrack,
  bar: number,
  at: Rational,
  position: number,
): TrackStep | undefined => {
  for (const steps of bars.slice(bar)) {
    const found = steps.find(
      (step) => compare(step.at, at) >= 0 && step.needs.some((need) => need === position),
    );
    if (found !== undefined) return found;
  }
  return undefined;
};
