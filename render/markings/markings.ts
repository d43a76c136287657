import {
  FEET,
  type Foot,
  formatChange,
  formatSetting,
  type Position,
  type Setting,
} from '../../engine/harp/setting.ts';
import { LETTERS, type Letter } from '../../engine/music/pitch.ts';
import type { Rational } from '../../engine/music/rational.ts';
import type { Move, Plan } from '../../engine/pedals/model.ts';
import type { Score } from '../../engine/score/model.ts';
import { beatAt } from '../../engine/time/moments.ts';
import { DEFAULT_ENGRAVING } from '../engraving-options.ts';
import { type PlaceOptions, type PlaceToMark, placesToMark } from './places-to-mark.ts';

/** One pedal of a change as printed. */
export interface PedalChange {
  readonly letter: Letter;
  readonly position: Position;
}

/** What is printed for the player at one place. */
export type Marking = MarkingPlace &
  (
    | {
        readonly kind: 'setting';
        readonly setting: Setting;
        /** Pedals that stand differently from the full setting before. */
        readonly changed: readonly Letter[];
      }
    | {
        readonly kind: 'change';
        readonly left: readonly PedalChange[];
        readonly right: readonly PedalChange[];
      }
  );

export interface MarkingPlace {
  /** Unique among the markings of a score, stable for the same plan. */
  readonly id: string;
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly beat: Rational;
  /** Id of the grace note before which it stands; null at an onset or a beat. */
  readonly graceNote: string | null;
}

/**
 * The markings that tell a plan to the player, in order of time: full settings where the options ask for them,
 * elsewhere the changes, one marking a moment.
 *
 * A setting is left out where one stands in the same bar or the one before and nothing has moved since.
 *
 * @param reminders bars (indices) at whose start the setting in force is printed in any case, such as the first bars of
 * systems, which only the layout knows
 */
export const chooseMarkings = (
  score: Score,
  plan: Plan,
  options: PlaceOptions = DEFAULT_ENGRAVING,
  reminders: readonly number[] = [],
): Marking[] => {
  return markPlaces(score, plan, options, reminders).markings;
};

/** How many moves no marking tells of: where only full settings are wanted, those made where none stands. */
export const countUnprintedMoves = (
  score: Score,
  plan: Plan,
  options: PlaceOptions,
  reminders: readonly number[] = [],
): number =>
  options.density === 'settings' ? markPlaces(score, plan, options, reminders).unprintedMoves : 0;

const markPlaces = (
  score: Score,
  plan: Plan,
  options: PlaceOptions,
  reminders: readonly number[],
): { readonly markings: Marking[]; readonly unprintedMoves: number } => {
  const markings: Marking[] = [];
  let unprintedMoves = 0;
  const pedals = new PedalBoard(plan.initial);
  for (const place of placesToMark(score, plan, options, reminders)) {
    pedals.make(place);
    if (pedals.isSettingDue(place)) {
      markings.push(pedals.printSetting(markingPlace(score, place, markings.length)));
    } else if (options.density === 'settings' && place.setting !== 'dropped') {
      unprintedMoves += place.moves.length;
    } else if (place.moves.length > 0) {
      markings.push(changeAt(markingPlace(score, place, markings.length), place.moves));
    }
  }
  return { markings, unprintedMoves };
};

const markingPlace = (score: Score, { at, bar, graceNote }: PlaceToMark, index: number): MarkingPlace => ({
  id: `marking-${index + 1}`,
  at,
  bar,
  beat: beatAt(score.bars[bar]!, at),
  graceNote,
});

/** The pedals as the markings set them one after the other. */
class PedalBoard {
  #setting: Setting;
  #printed: { readonly setting: Setting; readonly bar: number } | null = null;

  constructor(initial: Setting) {
    this.#setting = initial;
  }

  make({ moves }: PlaceToMark): void {
    for (const { letter, to } of moves) this.#setting = { ...this.#setting, [letter]: to };
  }

  isSettingDue({ setting, bar, moves }: PlaceToMark): boolean {
    if (setting !== 'wanted') return setting === 'always';
    const recent = this.#printed !== null && bar - this.#printed.bar <= 1;
    return !recent || moves.length > 0 || this.#changed().length > 0;
  }

  printSetting(place: MarkingPlace): Marking {
    const changed = this.#changed();
    this.#printed = { setting: this.#setting, bar: place.bar };
    return { kind: 'setting', setting: this.#setting, changed, ...place };
  }

  #changed(): Letter[] {
    const before = this.#printed?.setting;
    return before === undefined ? [] : LETTERS.filter((letter) => before[letter] !== this.#setting[letter]);
  }
}

const changeAt = (place: MarkingPlace, moves: readonly Move[]): Marking => ({
  kind: 'change',
  left: changesOf(moves, 'left'),
  right: changesOf(moves, 'right'),
  ...place,
});

/**
 * In the order of the pedals, by their own side whichever foot takes them: a reader looks for D C B below and E F G A
 * above. A pedal that moves twice is told where it comes to stand.
 */
const changesOf = (moves: readonly Move[], foot: Foot): PedalChange[] => {
  const positions = new Map(moves.map(({ letter, to }) => [letter, to]));
  return FEET[foot].flatMap((letter) => {
    const position = positions.get(letter);
    return position === undefined ? [] : [{ letter, position }];
  });
};

/** The marking in words, for screen readers and tool tips. */
export const describeMarking = (marking: Marking): string =>
  marking.kind === 'setting'
    ? `Pedal setting ${formatSetting(marking.setting)}`
    : `Pedal change ${[...marking.right, ...marking.left]
        .map(({ letter, position }) => formatChange(letter, position))
        .join(' and ')}`;
