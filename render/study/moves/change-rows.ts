import {
  capitalize,
  type HarpString,
  type LeverMove,
  type LeverPlan,
  type Score,
} from '../../../engine/index.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { nameInWords } from '../../sheets/note-words.ts';
import type { Words } from '../../words/worded.ts';
import { nameLeverChange } from '../lines/hand-line.ts';
import {
  describePlace,
  describeWindow,
  noteAt,
  openWordContext,
  tellOfItsTime,
  type WordContext,
} from './describe-window.ts';
import { repeatFinder } from './serves-return.ts';

/** One change of a lever as the table tells it. */
export interface ChangeRow {
  readonly barName: string;
  readonly beat: string;
  readonly hand: string;
  /** The string of the lever: `F4`. */
  readonly lever: string;
  readonly to: string;
  readonly gives: string;
  /** Seconds to the note that needs it, at the written tempo; null where that note comes after a jump. */
  readonly leadSeconds: number | null;
  readonly why: string;
}

/** The changes of a plan in their order, in words. */
export const tellChanges = (
  score: Score,
  plan: LeverPlan,
  naming: NoteNaming,
  words: Words,
): readonly ChangeRow[] => {
  const { hands, positions } = words.levers;
  const context = openWordContext(score, naming, words);
  return plan.moves.map((move) => ({
    ...describePlace(move, context),
    hand: hands[move.hand],
    lever: `${nameInWords(move.string.letter, 0, naming)}${move.string.octave}`,
    to: positions[move.to],
    gives: nameLeverChange(move, naming),
    why: tellWhy(move, score, plan, context),
  }));
};

/** Between which notes the change has its place, and when its hand is away from the strings. */
const tellWhy = (move: LeverMove, score: Score, { moves }: LeverPlan, context: WordContext): string => {
  const { letter, octave } = move.string;
  const isOwn = (string: HarpString): boolean => string.letter === letter && string.octave === octave;
  const own = moves.filter(({ string }) => isOwn(string));
  const repeat = repeatFinder(score, own, ({ pitch }) => isOwn(pitch))(move);
  const { levers } = context.words;
  const noteOf = (end: NonNullable<LeverMove['handAway']>['after']): string | null =>
    end === null ? null : levers.noteAt(...noteAt(end.note, context));
  const away = move.handAway;
  const free = away === null ? [] : [levers.handFree(move.hand, noteOf(away.after), noteOf(away.before))];
  const sentence = `${capitalize([...describeWindow(move, context, repeat, own), ...free].join(', '))}.`;
  return tellOfItsTime(move, sentence, context);
};
