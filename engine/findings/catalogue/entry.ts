import type { HarpKind } from '../../harp/harps.ts';
import type { NoteNames } from '../note-names.ts';
import type { Severity } from '../severity.ts';

/** What a foot, or a hand at a lever, does about a change for which it hardly has time. */
export const MOVER_TROUBLES = ['no-time', 'no-hand', 'two-at-once', 'other-side'] as const;

/** What can be wrong about a fast change, the nearest to its cause first: for the player, then for its string. */
export const FAST_CHANGE_TROUBLES = [...MOVER_TROUBLES, 'string-restruck', 'string-ringing'] as const;

type FastChangeTrouble = (typeof FAST_CHANGE_TROUBLES)[number];

/** What may help where pedals fail, beside changed notes. */
export type Remedy = 'slower-tempo' | 'later-note' | 'second-harp';

/** What is asked of kinds of findings, wherever some differ from others. */
interface FindingTraits {
  /** Who or what cannot do it. */
  readonly failsBy: 'feet' | 'hands' | 'strings';
  /** What is wrong about the change that the last of its notes needs; null where it is about no fast change. */
  readonly ofFastChange: FastChangeTrouble | null;
  /** Where a second harp is no remedy, no harp has the note. */
  readonly remedies: readonly Remedy[];
  /** Whether a decision of the user is not followed. */
  readonly refusesDecision: boolean;
  /** Whether a hand has too much at one moment, or too far apart. */
  readonly overloadsHand: boolean;
  /** Whether a note that a fix leaves out is heard all the same, since the other hand plays it. */
  readonly omittedIsHeard: boolean;
  /** Whether changes of markings are sought that fix it. */
  readonly fixSought: boolean;
}

type With<Trait extends keyof FindingTraits> = Readonly<Required<Pick<FindingTraits, Trait>>>;

/** All that is known of one kind of finding before it is found anywhere. */
export interface FindingEntry<Facts> extends Partial<FindingTraits> {
  readonly severity: Severity;
  /** The harps it concerns: on any other it cannot be told. */
  readonly harps: readonly HarpKind[];
  /** A heading for people. */
  readonly title: string;
  /** When it is told, as one sentence for the documentation. */
  readonly when: string;
  /** What goes wrong for the player at this place, as one sentence; its notes have English names if no others are given. */
  readonly sentence: (facts: Facts, names?: NoteNames) => string;
  /** Whether the hand that it is about is guessed; without it no hand is. */
  readonly isGuess?: (facts: Facts) => boolean;
  /**
   * What goes wrong in several places in a row, as one sentence; without it each place is told on its own.
   *
   * @param guessed whether a hand is guessed at one of them
   */
  readonly passage?: (places: number, guessed: boolean) => string;
}

/** Findings by code, each with facts of its own, and what has to be said of them all. */
type Entries<Asked> = Readonly<Record<string, FindingEntry<never> & Asked>>;

/** What has to be said of findings by how grave they are; of a mere note nothing. */
type AskedBySeverity<Stop extends keyof FindingTraits, Warn extends keyof FindingTraits> =
  | ({ readonly severity: 'stop' } & With<Stop>)
  | ({ readonly severity: 'warn' } & With<Warn>)
  | { readonly severity: 'note' };

export type PedalEntries = Entries<
  AskedBySeverity<'failsBy' | 'ofFastChange' | 'remedies', 'ofFastChange' | 'refusesDecision'>
>;

export type LeverEntries = Entries<
  AskedBySeverity<'failsBy' | 'ofFastChange', 'ofFastChange' | 'refusesDecision'>
>;

export type StringEntries = Entries<AskedBySeverity<'failsBy' | 'ofFastChange' | 'remedies', 'ofFastChange'>>;

/** What the hands cannot do makes nothing unplayable: hands can share, roll or leave out. */
export type HandEntries = Entries<
  { readonly severity: 'warn' } & With<'ofFastChange' | 'overloadsHand' | 'omittedIsHeard'>
>;

export type MarkingEntries = Entries<With<'fixSought'>>;

export type LeverMarkingEntries = Entries<unknown>;

/** Where something is printed: the number of its bar, and its beat as it is written: `2½`. */
export interface TextPlace {
  readonly bar: string;
  readonly beat: string;
}

export const nameTextPlace = ({ bar, beat }: TextPlace): string => `bar ${bar}, beat ${beat}`;

/** Moves that come too close together for comfort. */
export interface HurriedFacts {
  readonly moves: number;
  /** From the first of them to the last. */
  readonly seconds: number;
  readonly left: number;
  readonly right: number;
}
