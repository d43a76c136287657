import {
  beatAt,
  compare,
  FEET,
  type Foot,
  formatChange,
  LETTERS,
  type Letter,
  type Move,
  type Plan,
  type Position,
  type Rational,
  type Score,
  type Setting,
} from '../../engine/index.ts';
import { DEFAULT_ENGRAVING, type EngravingOptions } from '../engraving-options.ts';
import { ENGLISH } from '../words/english/english.ts';
import type { Words } from '../words/worded.ts';
import { movesWithTheirNotes } from './moves-with-notes.ts';
import { notesInNeedLater } from './needed-later.ts';
import { comparePasses, type SettingRules } from './passes.ts';
import { type PlaceOptions, type PlaceToMark, placesToMark } from './places-to-mark.ts';
import { printMoves } from './printed-moves.ts';
import { startTelling } from './told-in-words.ts';

/** One pedal of a change as printed. */
export interface PedalChange {
  readonly letter: Letter;
  readonly position: Position;
}

/** A pedal of a change that is told in words too, with the foot that moves it. */
export interface ToldChange extends PedalChange {
  readonly foot: Foot;
}

/** What is printed for the player at one place. */
export type Marking = MarkingPlace &
  (
    | {
        readonly kind: 'setting';
        readonly setting: Setting;
        /** Pedals that stand differently from the full setting before. */
        readonly changed: readonly Letter[];
        /** Pedals that move here. */
        readonly moved: readonly Letter[];
        /** It holds for the first time only: when the music comes back here, pedals stand elsewhere. */
        readonly firstTimeOnly: boolean;
        /** As of a change. */
        readonly withNote: boolean;
      }
    | {
        readonly kind: 'change';
        readonly left: readonly PedalChange[];
        readonly right: readonly PedalChange[];
        /** The feet must move at the very moment of the note: until then a string sounds that they would disturb. */
        readonly withNote: boolean;
        /** The pedals of which that is so; others may move before. */
        readonly lettersWithNote: readonly Letter[];
        /** Ids of the notes that need it, each pedal's first, where none sounds at its moment; else null. */
        readonly neededLaterBy: readonly string[] | null;
        /** Among letters that stand at their notes, those here that stand where the foot moves: it has no time for them there. */
        readonly cannotWait: readonly Letter[];
      }
  ) & {
    /** Changes for a player who comes back here; for the first time the pedals stand there already. */
    readonly onReturn: readonly PedalChange[];
    /** What is told in words too: all that moves here, where the player meets one of them for the first time. */
    readonly inWords: readonly ToldChange[];
    /** How often the bar is played in all. */
    readonly timesPlayed: number;
  };

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
  options: MarkingOptions = DEFAULT_ENGRAVING,
  reminders: readonly number[] = [],
): Marking[] => {
  return markPlaces(score, plan, options, reminders).markings;
};

/** What decides the markings. */
type MarkingOptions = PlaceOptions & Pick<EngravingOptions, 'changeWords'>;

/** How many moves no marking tells of: where only full settings are wanted, those made where none stands. */
export const countUnprintedMoves = (
  score: Score,
  plan: Plan,
  options: MarkingOptions,
  reminders: readonly number[] = [],
): number =>
  options.density === 'settings' ? markPlaces(score, plan, options, reminders).unprintedMoves : 0;

const markPlaces = (
  score: Score,
  plan: Plan,
  options: MarkingOptions,
  reminders: readonly number[],
): { readonly markings: Marking[]; readonly unprintedMoves: number } => {
  const markings: Marking[] = [];
  let unprintedMoves = 0;
  const pedals = new PedalBoard(plan.initial);
  const printed = printMoves(score, plan, options.marksAt);
  const places = placesToMark(score, plan, options, reminders, printed);
  const passes = comparePasses(score, places, { initial: plan.initial, ...PEDALS });
  const news = options.changeWords ? newChanges() : () => [];
  const mustWait = options.marksAt === 'foot' ? movesWithTheirNotes(score, plan) : NO_MOVES;
  for (const place of places) {
    pedals.make(place, passes.firstTime(place));
    const here = markingPlace(score, place, markings.length);
    const timesPlayed = passes.timesPlayed(place.bar);
    if (pedals.isSettingDue(place)) {
      const firstTimeOnly = passes.differ(place);
      const onReturn = firstTimeOnly ? changesOnReturn(place.moves) : [];
      markings.push({
        ...pedals.printSetting(here, place.moves),
        withNote: areWithNote(place.moves, mustWait),
        firstTimeOnly,
        onReturn,
        inWords: news(place.moves),
        timesPlayed,
      });
    } else if (options.density === 'settings' && place.setting !== 'dropped') {
      unprintedMoves += place.moves.length;
    } else if (place.moves.length > 0) {
      const inWords = news(place.moves);
      const early = place.moves.filter((move) => printed.ahead.has(move));
      markings.push({
        ...changeAt(here, place.moves, mustWait),
        cannotWait: early.map(({ letter }) => letter),
        inWords,
        timesPlayed,
      });
    }
  }
  return { markings, unprintedMoves };
};

/** How a place leaves the pedals. */
const PEDALS: Omit<SettingRules<Setting, PlaceToMark>, 'initial'> = {
  after: (setting, { moves }) => ({
    ...setting,
    ...Object.fromEntries(moves.map(({ letter, to }) => [letter, to])),
  }),
  areAlike: (one, other) => LETTERS.every((letter) => one[letter] === other[letter]),
};

/** The moves of each place in turn that are told in words too. */
const newChanges = (): ((moves: readonly Move[]) => readonly ToldChange[]) => {
  const told = startTelling(({ letter, to }: Move) => formatChange(letter, to));
  return (moves) =>
    told(moves)
      .toSorted((a, b) => compare(a.at, b.at) || ROWS.indexOf(a.letter) - ROWS.indexOf(b.letter))
      .map(({ letter, to, foot }) => ({ letter, position: to, foot }));
};

/** The rows of a change from above: pedals stand in them by their own side, whichever foot takes them. */
const ROWS: readonly Letter[] = [...FEET.right, ...FEET.left];

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

  /** Who comes to a second ending has not played the first: a place that is played stands as it does then. */
  make(place: PlaceToMark, firstTime: Setting | null): void {
    this.#setting = firstTime ?? PEDALS.after(this.#setting, place, 1);
  }

  isSettingDue({ setting, bar, moves }: PlaceToMark): boolean {
    if (setting !== 'wanted') return setting === 'always';
    const recent = this.#printed !== null && bar - this.#printed.bar <= 1;
    return !recent || moves.length > 0 || this.#changed().length > 0;
  }

  printSetting(place: MarkingPlace, moves: readonly Move[]) {
    const changed = this.#changed();
    const moved = LETTERS.filter((letter) => moves.some((move) => !move.restores && move.letter === letter));
    this.#printed = { setting: this.#setting, bar: place.bar };
    return { kind: 'setting' as const, setting: this.#setting, changed, moved, ...place };
  }

  #changed(): Letter[] {
    const before = this.#printed?.setting;
    return before === undefined ? [] : LETTERS.filter((letter) => before[letter] !== this.#setting[letter]);
  }
}

const NO_MOVES: ReadonlySet<Move> = new Set();

const lettersWithNote = (moves: readonly Move[], mustWait: ReadonlySet<Move>): readonly Letter[] =>
  moves.filter((move) => !move.restores && mustWait.has(move)).map(({ letter }) => letter);

const areWithNote = (moves: readonly Move[], mustWait: ReadonlySet<Move>): boolean =>
  lettersWithNote(moves, mustWait).length > 0;

const changeAt = (place: MarkingPlace, moves: readonly Move[], mustWait: ReadonlySet<Move>) => {
  const always = moves.filter(({ restores }) => !restores);
  return {
    kind: 'change' as const,
    left: changesOf(always, 'left'),
    right: changesOf(always, 'right'),
    withNote: areWithNote(moves, mustWait),
    lettersWithNote: lettersWithNote(moves, mustWait),
    neededLaterBy: notesInNeedLater(moves),
    onReturn: changesOnReturn(moves),
    ...place,
  };
};

/** What brings pedals back for who comes from elsewhere, in the order of a setting. */
const changesOnReturn = (moves: readonly Move[]): PedalChange[] => {
  const back = moves.filter(({ restores }) => restores);
  return [...changesOf(back, 'left'), ...changesOf(back, 'right')];
};

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

/** All pedals of a change, those for who comes back included. */
export const allChanges = (marking: Marking & { readonly kind: 'change' }): readonly PedalChange[] => [
  ...marking.left,
  ...marking.right,
  ...marking.onReturn,
];

/** The word for a later time of playing; which times there are shows the music. */
export const returnTime = (
  { timesPlayed }: { readonly timesPlayed: number },
  { second, later }: Words['inWords']['times'],
): string => (timesPlayed <= 2 ? second : later);

/** As files have it: programs read them. */
export const FIRST_TIME: string = ENGLISH.inWords.times.first;
