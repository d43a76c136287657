import type { Score } from '../score/model/score.ts';
import { nameBarOrCount } from '../words/bar-names.ts';
import { namePlaceInBar } from '../words/bars.ts';
import { listChoices } from '../words/lists.ts';
import type { DecisionList, DecisionPin, Decisions, Place } from './model.ts';
import { callNotes } from './notes-at.ts';

/** Why an entry of decisions has no place in a score. */
export type UnplacedReason =
  | {
      readonly kind:
        | 'no-bar'
        | 'no-beat'
        | 'ends-too-soon'
        | 'no-note'
        | 'cannot-wait'
        | 'on-slide'
        | 'no-moment'
        | 'no-entry';
    }
  /** `parts`: the names of those that there are. */
  | { readonly kind: 'no-part'; readonly parts: readonly string[] }
  /** `possible`: the strings that do give the pitch. */
  | { readonly kind: 'other-pitch'; readonly possible: readonly string[] };

/** Where an entry stands in decisions. */
export interface DecisionAddress {
  readonly list: DecisionList;
  readonly index: number;
  /** The member of the entry that does not fit; null for the entry as a whole. */
  readonly field: string | null;
}

/** An entry of decisions that has no place in the score. */
export interface UnplacedDecision extends DecisionAddress {
  /** What would have been right, as the end of a sentence. */
  readonly expected: string;
  /** For the user to read: what is set aside, and why. */
  readonly sentence: string;
}

/** What is left of decisions without entries that have no place in a score. */
export const withoutUnplaced = (
  decisions: Decisions,
  unplaced: readonly Pick<DecisionAddress, 'list' | 'index'>[],
): Decisions => {
  const keep = <L extends DecisionList>(list: L): Decisions[L] =>
    (decisions[list] as readonly unknown[]).filter(
      (_, i) => !unplaced.some((entry) => entry.list === list && entry.index === i),
    ) as unknown as Decisions[L];
  return {
    pins: keep('pins'),
    respell: keep('respell'),
    omit: keep('omit'),
    delays: keep('delays'),
    fullSettings: keep('fullSettings'),
    cueParts: keep('cueParts'),
    tempos: keep('tempos'),
  };
};

export const describeUnplaced = (
  score: Score,
  decisions: Decisions,
  address: DecisionAddress,
  reason: UnplacedReason,
): UnplacedDecision => ({
  ...address,
  expected: expectedFor(score, reason),
  sentence: `${describeDecision(score, decisions, address)} is ignored: ${becauseOf(reason)}.`,
});

const expectedFor = (score: Score, reason: UnplacedReason): string => {
  switch (reason.kind) {
    case 'no-bar':
      return `the bars of this score are counted from 0 to ${score.bars.length - 1}`;
    case 'no-beat':
      return 'the beat must lie within its bar, counting from 1';
    case 'ends-too-soon':
      return 'it must come after the place in “from”';
    case 'no-note':
      return 'no note with this pitch begins there';
    case 'cannot-wait':
      return 'the note must still sound then, and be plucked once, without sign or tie before it';
    case 'on-slide':
      return 'the note belongs to a slide on one string and must stay on it';
    case 'no-moment':
      return 'there must be a note or a beat there';
    case 'no-entry':
      return 'the harp must come in there after a rest of a bar or more';
    case 'no-part':
      return `it must name one other part of the score: ${reason.parts.join(', ')}`;
    case 'other-pitch':
      return reason.possible.length === 0
        ? 'no string gives the pitch of this note'
        : `it must name a string with the same pitch, ${listChoices(reason.possible)}, or the same at most two octaves away`;
  }
};

const becauseOf = (reason: UnplacedReason): string => {
  switch (reason.kind) {
    case 'no-bar':
      return 'the part has no such bar';
    case 'no-beat':
      return 'its bar has no such beat';
    case 'ends-too-soon':
      return 'it ends before it begins';
    case 'no-note':
      return 'no note with this pitch begins there';
    case 'cannot-wait':
      return 'the note no longer sounds then, or is not plucked just once';
    case 'on-slide':
      return 'the note belongs to a slide on one string and must stay on it';
    case 'no-moment':
      return 'there is no note or beat there';
    case 'no-entry':
      return 'the harp does not come in there after a rest';
    case 'no-part':
      return 'the score has no such part';
    case 'other-pitch':
      return 'that string does not have the pitch of the note';
  }
};

/** What was decided, and where: “The pinned move of the C pedal in bar 5”. */
export const describeDecision = (
  score: Score,
  decisions: Decisions,
  { list, index }: Pick<DecisionAddress, 'list' | 'index'>,
): string => {
  switch (list) {
    case 'pins':
      return describePin(score, decisions.pins[index]!);
    case 'respell': {
      const entry = decisions.respell[index]!;
      return `The respelling of ${callNotes(entry)} as ${entry.to} ${whereIs(score, entry)}`;
    }
    case 'omit': {
      const entry = decisions.omit[index]!;
      return `The decision to leave out ${callNotes(entry)} ${whereIs(score, entry)}`;
    }
    case 'delays': {
      const entry = decisions.delays[index]!;
      return `The delay of ${callNotes(entry)} ${whereIs(score, entry)}`;
    }
    case 'fullSettings': {
      const entry = decisions.fullSettings[index]!;
      return `The full setting ${entry.print ? 'added' : 'removed'} ${whereIs(score, entry)}`;
    }
    case 'cueParts': {
      const entry = decisions.cueParts[index]!;
      return `The choice of ${entry.part === null ? 'no cue' : `a cue of ${entry.part}`} ${whereIs(score, entry)}`;
    }
    case 'tempos': {
      const entry = decisions.tempos[index]!;
      return `The tempo of at most ${entry.quartersPerMinute} quarter notes a minute that begins ${whereIs(score, entry.from)}`;
    }
  }
};

const describePin = (score: Score, pin: DecisionPin): string => {
  switch (pin.kind) {
    case 'move':
      return `The pinned move of the ${pin.pedal} pedal ${whereIs(score, pin.at)}`;
    case 'position':
      return `The pinned position of the ${pin.pedal} pedal ${whereIs(score, pin.from)}`;
    case 'lever-move':
      return `The pinned change of the ${pin.lever} lever ${whereIs(score, pin.at)}`;
    case 'lever-position':
      return `The pinned position of the ${pin.lever} lever ${whereIs(score, pin.from)}`;
    case 'forbid':
      return `The passage without moves that begins ${whereIs(score, pin.from)}`;
  }
};

/** A bar that is not there is told by its place among the bars. */
const whereIs = (score: Score, { barIndex: bar, beat }: Place): string =>
  `in ${namePlaceInBar(nameBarOrCount(score, bar), beat)}`;
