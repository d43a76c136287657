import type { Letter } from '../../music/pitch.ts';
import { type GivenChanges, type LetterEdit, NOTHING_GIVEN, REPAIR_PRICES } from '../letter/letter-edits.ts';
import type { LetterTrack, Statement } from '../letter/letter-track.ts';
import type { BarPasses } from '../letter/passes.ts';
import { type LetterRepair, repairAgain, repairLetter } from '../letter/repair-letter.ts';
import type { FixPlace } from '../model.ts';

/** An edit that concerns several pedals, or what one of them is given beside such an edit. */
export type JointEdit = WholeEdit | Rename | AddEdit | (LetterEdit & { readonly kind: 'alter' });

/** A marking of several pedals that stands elsewhere, or not at all. */
export type WholeEdit =
  | { readonly kind: 'move-marking'; readonly marking: number; readonly place: FixPlace }
  | { readonly kind: 'remove-marking'; readonly marking: number };

/** A name that is meant for another pedal. */
export interface Rename {
  readonly kind: 'rename';
  readonly statement: Statement;
  readonly to: Letter;
}

export type AddEdit = LetterEdit & { readonly kind: 'add' };

/** A repair in the making: what is done for several pedals at once, and what each still needs beside that. */
export interface PartDraft {
  readonly tracks: ReadonlyMap<Letter, LetterTrack>;
  readonly passes: readonly BarPasses[];
  readonly repairs: ReadonlyMap<Letter, LetterRepair>;
  /** What the joint edits take from each pedal and give it. */
  readonly given: ReadonlyMap<Letter, GivenChanges>;
  readonly joint: readonly JointEdit[];
}

/** Each pedal repaired by itself. */
export const startDraft = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  passes: readonly BarPasses[],
): PartDraft => ({
  tracks,
  passes,
  repairs: new Map([...tracks].map(([letter, track]) => [letter, repairLetter(track, passes)])),
  given: new Map(),
  joint: [],
});

/** One pedal with more taken from it or given it. */
export interface Granted {
  readonly letter: Letter;
  readonly given: GivenChanges;
  readonly repair: LetterRepair;
}

export const tryGiven = (draft: PartDraft, letter: Letter, more: Partial<GivenChanges>): Granted => {
  const known = draft.given.get(letter) ?? NOTHING_GIVEN;
  const given = {
    without: [...known.without, ...(more.without ?? [])],
    also: [...known.also, ...(more.also ?? [])],
  };
  return { letter, given, repair: repairAgain(draft.repairs.get(letter)!, given) };
};

/** The draft with joint edits made, and what they grant to each pedal. */
export const takeEdits = (
  draft: PartDraft,
  joint: readonly JointEdit[],
  granted: readonly Granted[],
): PartDraft => ({
  ...draft,
  repairs: new Map([...draft.repairs, ...granted.map(({ letter, repair }) => [letter, repair] as const)]),
  given: new Map([...draft.given, ...granted.map(({ letter, given }) => [letter, given] as const)]),
  joint: [...draft.joint, ...joint],
});

/** What all that the pedals still need comes to. */
export const totalOf = ({ repairs }: Pick<PartDraft, 'repairs'>): number =>
  [...repairs.values()].reduce((sum, { cost, unmet }) => sum + cost + unmet * REPAIR_PRICES.unmet, 0);
