import type { Position } from '../../../engine/harp/setting.ts';
import type { Letter } from '../../../engine/music/pitch.ts';
import type { Rational } from '../../../engine/music/rational.ts';
import type { Plan } from '../../../engine/plan/model.ts';
import type { Remark, ScoreFormat, Titles } from '../../../engine/score/model.ts';

/** A bar as the page needs it. */
export interface BarPlace {
  readonly id: string;
  /** The printed number. */
  readonly number: string;
  readonly onsetQuarters: number;
  readonly durationQuarters: number;
  /** Length of a beat of its meter. */
  readonly beatQuarters: number;
}

/** A note that asks for a pedal, from its onset until the last of it is plucked. */
export interface PedalNeed {
  readonly letter: Letter;
  readonly position: Position;
  readonly note: string;
  readonly onsetQuarters: number;
  readonly heldUntilQuarters: number;
}

/** What a person calls a note, and where it stands. */
export interface NotePlace {
  readonly name: string;
  /** Index into the bars. */
  readonly bar: number;
  readonly onset: Rational;
}

/** A harp part that was read and planned: all that the page shows of it, without the source text. */
export interface PlannedPart {
  readonly titles: Titles;
  readonly partName: string;
  readonly format: ScoreFormat;
  readonly compressed: boolean;
  readonly bars: readonly BarPlace[];
  /** By note id. */
  readonly notes: ReadonlyMap<string, NotePlace>;
  /** In order of onset. */
  readonly needs: readonly PedalNeed[];
  readonly plan: Plan;
  readonly remarks: readonly Remark[];
}
