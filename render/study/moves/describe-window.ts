import {
  buildClock,
  type CountedBar,
  compare,
  countBars,
  isInPause,
  leadSecondsOf,
  type MoveWindow,
  type Note,
  nameBarIn,
  notesById,
  type OneTime,
  type Rational,
  type Score,
  tellBeat,
  toldAtIn,
} from '../../../engine/index.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { countPasses } from '../../markings/passes.ts';
import { namePitch } from '../../sheets/note-words.ts';
import type { Words } from '../../words/worded.ts';
import { timeOfMove } from '../lines/time-of-playing.ts';
import type { RepeatPart } from './serves-return.ts';

/** What the words of a change of either harp are made of. */
export interface WordContext {
  readonly score: Score;
  readonly notes: ReadonlyMap<string, Note>;
  readonly secondsAt: (at: Rational) => number;
  /** By the score's bars. */
  readonly counted: readonly CountedBar[];
  /** How often a bar (index) is played. */
  readonly timesPlayed: (bar: number) => number;
  readonly naming: NoteNaming;
  readonly words: Words;
}

export const openWordContext = (score: Score, naming: NoteNaming, words: Words): WordContext => ({
  score,
  notes: notesById(score.notes),
  secondsAt: buildClock(score.tempo),
  counted: countBars(score),
  timesPlayed: countPasses(score),
  naming,
  words,
});

/** What pedal moves and lever changes have in common. */
interface Placed {
  readonly at: Rational;
  readonly bar: number;
  readonly window: MoveWindow;
  readonly graceNote: string | null;
  readonly restores: boolean;
  /** Of levers: the one time of playing at which it is made, as the page tells it; null where it is each time. */
  readonly onlyAt?: OneTime | null;
}

/** Where a change is made, its count as it is counted aloud, and its seconds to the note that needs it; null where none can be told. */
export const describePlace = (
  placed: Placed,
  { score, secondsAt, counted, words }: WordContext,
): { readonly barName: string; readonly beat: string; readonly leadSeconds: number | null } => {
  const at = toldAtIn(score)(placed);
  return {
    barName: nameBarIn(score)(placed.bar),
    beat: tellBeat(counted[placed.bar]!.countAt(at), words.study.partOfBeat),
    // In a pause there is all the time.
    leadSeconds: isInPause(score, placed) ? null : leadSecondsOf({ ...placed, at }, secondsAt),
  };
};

/**
 * A sentence about a change; where it is made only at one time of playing, after that time: when the music comes back, as
 * the page has it beside the change, or in an ending.
 */
export const tellOfItsTime = (
  placed: Pick<Placed, 'bar' | 'restores' | 'onlyAt'>,
  sentence: string,
  { score, timesPlayed, words }: Pick<WordContext, 'score' | 'timesPlayed' | 'words'>,
): string => {
  const { times } = words.inWords;
  const own = timeOfMove(placed, timesPlayed, times);
  if (own !== null) return words.labelled(own, sentence);
  const [ending, ...more] = score.bars[placed.bar]!.repeat.endings;
  const time = ending === 1 ? times.first : ending === 2 ? times.second : null;
  return time === null || more.length > 0 ? sentence : words.labelled(time, sentence);
};

/**
 * Between which notes a change has its place, in clauses.
 *
 * @param repeat what it has to do with a jump back
 * @param own all changes of its pedal or lever, in order of time
 */
export const describeWindow = (
  placed: Placed,
  context: WordContext,
  repeat: RepeatPart,
  own: readonly Pick<Placed, 'at' | 'bar'>[],
): readonly string[] => {
  const { study } = context.words;
  const changed = own.findLast(({ at }) => compare(at, placed.at) < 0);
  const { graceNote, restores } = placed;
  const { after, before } = placed.window;
  const isForLater = repeat === 'for-return' || repeat === 'for-repeated';
  return [
    ...(isInPause(context.score, placed) ? [study.whyInPause] : []),
    // Who comes back does not begin at the start.
    ...(after !== null
      ? [study.whyAfter(...noteAt(after.note, context))]
      : restores
        ? []
        : changed !== undefined
          ? [study.whyAfterChange(nameBarIn(context.score)(changed.bar))]
          : [study.whyFromStart]),
    ...(isForLater
      ? []
      : [
          before === null
            ? study.whyAfterJump
            : study.whyBefore(...noteAt(before.note, context), countOf(before.note, context)),
        ]),
    ...(graceNote === null ? [] : [study.whyBeforeGrace]),
    ...(restores || repeat === 'for-return' ? [study.whyRestores] : []),
    ...(!restores && repeat === 'for-repeated' ? [study.whyForRepeated] : []),
    ...(!restores && repeat === 'as-left' ? [study.whyAsRepeatLeaves] : []),
  ];
};

/** A note of the score, and the name of its bar. */
export const noteAt = (
  id: string,
  { score, notes, naming }: WordContext,
): readonly [note: string, bar: string] => {
  const { pitch, bar } = findNote(id, notes);
  return [namePitch(pitch, naming), nameBarIn(score)(bar)];
};

const countOf = (id: string, { counted, notes, words }: WordContext): string => {
  const { onset, bar } = findNote(id, notes);
  return tellBeat(counted[bar]!.countAt(onset), words.study.partOfBeat);
};

const findNote = (id: string, notes: ReadonlyMap<string, Note>): Note => {
  const note = notes.get(id);
  if (note === undefined) throw new Error(`a plan speaks of ${id}, which is no note of its score`);
  return note;
};
