import {
  capitalize,
  drawbacksOf,
  LETTERS,
  type Move,
  nameOfPosition,
  type Plan,
  type PriceName,
  type Score,
} from '../../../engine/index.ts';
import { movesWithTheirNotes } from '../../markings/moves-with-notes.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { nameInWords } from '../../sheets/note-words.ts';
import type { Words } from '../../words/worded.ts';
import {
  describePlace,
  describeWindow,
  openWordContext,
  tellOfItsTime,
  type WordContext,
} from './describe-window.ts';
import { repeatFinder } from './serves-return.ts';

/** One move of the plan as the table tells it. */
export interface MoveRow {
  readonly barName: string;
  readonly beat: string;
  readonly foot: string;
  readonly pedal: string;
  readonly from: string;
  readonly to: string;
  /** Seconds from the move to the note that needs it, at the written tempo; null where that note comes after a jump. */
  readonly leadSeconds: number | null;
  /** Whether the foot must wait for the note, as the part says by a wedge. */
  readonly withNote: boolean;
  readonly why: string;
}

/** More drawbacks than the gravest would fill a cell of the table. */
const MOST_DRAWBACKS = 2;

/** The moves of a plan in their order, in words. */
export const tellMoves = (score: Score, plan: Plan, naming: NoteNaming, words: Words): readonly MoveRow[] => {
  const context = openWordContext(score, naming, words);
  const byPedal = new Map(
    LETTERS.map((letter) => {
      const own = plan.moves.filter((move) => move.letter === letter);
      return [letter, { own, repeatOf: repeatFinder(score, own, ({ pitch }) => pitch.letter === letter) }];
    }),
  );
  const waiting = movesWithTheirNotes(score, plan);
  return plan.moves.map((move) => {
    const place = describePlace(move, context);
    const { own, repeatOf } = byPedal.get(move.letter)!;
    const window = describeWindow(move, context, repeatOf(move), own);
    return {
      ...place,
      foot: words.feet[move.foot],
      pedal: nameInWords(move.letter, 0, naming),
      from: words.notes.positions[nameOfPosition(move.from)],
      to: words.notes.positions[nameOfPosition(move.to)],
      withNote: waiting.has(move),
      why: tellWhy(move, place.leadSeconds, window, context),
    };
  });
};

/** Between which notes the move has its place, and what speaks against the moment. */
const tellWhy = (
  move: Move,
  leadSeconds: number | null,
  clauses: readonly string[],
  context: WordContext,
): string => {
  const { drawbacks: named } = context.words;
  const drawbacks = drawbacksOf(move, leadSeconds)
    // The column of the lead tells it.
    .filter(({ name }) => name !== 'noLead')
    .slice(0, MOST_DRAWBACKS)
    .map(({ name }) => (Object.hasOwn(named, name) ? named[name as PriceName] : name));
  const window = `${capitalize(clauses.join(', '))}.`;
  const sentence = tellOfItsTime(move, window, context);
  return drawbacks.length === 0 ? sentence : `${sentence} ${context.words.study.whyAgainst(drawbacks)}.`;
};
