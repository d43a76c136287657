import type { LeverAt } from '../harp/lever-name.ts';
import type { Position } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { LeverUneaseCause } from '../proof/levers/lever-comfort.ts';
import type { RedundantMarking } from '../proof/marking-faults.ts';
import type { FixPlace } from '../proof/model.ts';

/** What is thought of a change that a pupil has written or left out. */
export const VERDICTS = ['right', 'better-place', 'wrong', 'missing', 'needless'] as const;

/** One of them. */
export type Verdict = (typeof VERDICTS)[number];

/** Each after how many changes are judged so, in English: `3 wrong`. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  right: 'right',
  'better-place': 'with a better place',
  wrong: 'wrong',
  missing: 'missing',
  needless: 'not needed',
};

/** A pedal in a position. */
export interface StatedPedal {
  readonly letter: Letter;
  readonly position: Position;
}

/** What markings tell of: a pedal in a position, or what a string gives with its lever set. */
export type Stated = StatedPedal | LeverAt;

/** A note that sounds otherwise than written. */
export interface WrongSound {
  /** As it is written, and the bar and beat of it. */
  readonly pitch: Pitch;
  readonly place: FixPlace;
  /** What its string gives instead; null where nothing says where the pedal stands. */
  readonly instead: Pitch | null;
  /** How many notes after it go wrong in the same way, and where the last of them is; null for none. */
  readonly more: { readonly notes: number; readonly last: FixPlace } | null;
}

/** What belongs there instead of what was written. */
export type Correction<Of extends Stated = Stated> =
  /** `to` is where it belongs, if not where the wrong one stands. */
  | { readonly kind: 'write'; readonly stated: readonly Of[]; readonly to?: FixPlace }
  | { readonly kind: 'move'; readonly to: FixPlace }
  /** `against`: what another marking of that moment says of the same pedal or lever, which it contradicts; empty for none. */
  | { readonly kind: 'strike'; readonly against: readonly Of[] };

/** Why a change is not needed; `undoes`: it only takes back one that is wrong or not needed itself. */
export interface Needless {
  readonly why: RedundantMarking['why'] | 'undoes';
  /** Since when it stands so, or up to which change of the same pedal or lever no note asks for it; null where neither can be told. */
  readonly place: FixPlace | null;
}

/** One thing that was asked of the pupil: the opening as a whole, or one change of one pedal or lever. */
export interface JudgedChange<Of extends Stated = Stated> extends FixPlace {
  readonly kind: 'opening' | 'change';
  /**
   * What was written, or for a missing one what is to be written: one, or several strings of which one name tells. Of an
   * opening all pedals, or the levers that are up.
   */
  readonly stated: readonly Of[];
  readonly verdict: Verdict;
  /** Index of the marking in the file (of levers: of its texts); null for a missing one. */
  readonly marking: number | null;
  /** Of wrong and missing ones: the first notes that go wrong, in order of place. */
  readonly sounds: readonly WrongSound[];
  /** Of wrong ones. */
  readonly correction: Correction<Of> | null;
  /** The foot, or either hand, has no time for it where it stands. */
  readonly tooQuick: boolean;
  /** Of those that had better stand elsewhere. */
  readonly better: { readonly to: FixPlace; readonly why: LeverUneaseCause } | null;
  /** Of needless ones. */
  readonly needless: Needless | null;
}

/** Words that look like a marking and are not understood as one. */
export interface UnreadMarking extends FixPlace {
  readonly text: string;
}

interface Judged<Of extends Stated> {
  /** In order of place. */
  readonly changes: readonly JudgedChange<Of>[];
  readonly unread: readonly UnreadMarking[];
  readonly points: Points;
}

export type PedalAttempt = { readonly harp: 'pedal' } & Judged<StatedPedal>;
export type LeverAttempt = { readonly harp: 'lever' } & Judged<LeverAt>;

/** A pupil's markings, judged. */
export type JudgedAttempt = PedalAttempt | LeverAttempt;

/** Counted points: those that the attempt has, and those that it could have. */
export interface Points {
  readonly given: number;
  readonly most: number;
}
