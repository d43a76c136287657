import {
  beatAt,
  buildClock,
  compare,
  formatBeat,
  type Move,
  type Note,
  nameOfPosition,
  type Plan,
  PRICES,
  pitchName,
  type Score,
} from '../../engine/index.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { nameInWords } from '../sheets/note-words.ts';
import { FOOT_WORDS, STUDY_WORDS as WORDS } from './words.ts';

/** One move of the plan as the table tells it. */
export interface MoveRow {
  readonly barNumber: string;
  readonly beat: string;
  readonly foot: string;
  readonly pedal: string;
  readonly from: string;
  readonly to: string;
  /** Seconds from the move to the note that needs it, at the written tempo; null where that note comes after a jump. */
  readonly leadSeconds: number | null;
  readonly why: string;
}

/** Drawbacks of less than this are none, and no more than so many are told. */
const LEAST_DRAWBACK = 0.05;
const MOST_DRAWBACKS = 2;

/** The moves of a plan in their order, in words. */
export const tellMoves = (score: Score, plan: Plan, naming: NoteNaming): readonly MoveRow[] => {
  const notes = new Map(score.notes.map((note) => [note.id, note]));
  const secondsAt = buildClock(score.tempo);
  return plan.moves.map((move) => {
    const needed = move.window.before;
    const straightOn = needed !== null && compare(needed.onset, move.at) >= 0;
    return {
      barNumber: printedBarNumber(score.bars[move.bar]!.number),
      beat: formatBeat(move.beat),
      foot: FOOT_WORDS[move.foot],
      pedal: nameInWords(move.letter, 0, naming),
      from: nameOfPosition(move.from),
      to: nameOfPosition(move.to),
      leadSeconds: straightOn ? secondsAt(needed.onset) - secondsAt(move.at) : null,
      why: tellWhy(move, score, notes),
    };
  });
};

/** Between which notes the move has its place, and what speaks against the moment. */
const tellWhy = (move: Move, score: Score, notes: ReadonlyMap<string, Note>): string => {
  const { after, before } = move.window;
  const clauses = [
    after === null ? WORDS.whyFromStart : WORDS.whyAfter(...noteAt(after.note, score, notes)),
    before === null
      ? WORDS.whyAfterJump
      : WORDS.whyBefore(...noteAt(before.note, score, notes), beatOf(before.note, score, notes)),
    ...(move.graceNote === null ? [] : [WORDS.whyBeforeGrace]),
    ...(move.restores ? [WORDS.whyRestores] : []),
  ];
  const drawbacks = drawbacksOf(move);
  const sentence = `${capitalize(clauses.join(', '))}.`;
  return drawbacks.length === 0 ? sentence : `${sentence} ${WORDS.whyAgainst(drawbacks)}.`;
};

const noteAt = (
  id: string,
  score: Score,
  notes: ReadonlyMap<string, Note>,
): readonly [note: string, bar: string] => {
  const { pitch, bar } = findNote(id, notes);
  return [pitchName(pitch), printedBarNumber(score.bars[bar]!.number)];
};

const beatOf = (id: string, score: Score, notes: ReadonlyMap<string, Note>): string => {
  const { onset, bar } = findNote(id, notes);
  return formatBeat(beatAt(score.bars[bar]!, onset));
};

const findNote = (id: string, notes: ReadonlyMap<string, Note>): Note => {
  const note = notes.get(id);
  if (note === undefined) throw new Error(`a plan speaks of ${id}, which is no note of its score`);
  return note;
};

const drawbacksOf = ({ cost }: Move): readonly string[] =>
  cost
    .filter(({ amount }) => amount >= LEAST_DRAWBACK)
    .toSorted((a, b) => b.amount - a.amount)
    .slice(0, MOST_DRAWBACKS)
    .map(({ name }) => (Object.hasOwn(PRICES, name) ? PRICES[name as keyof typeof PRICES].against : name));

const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
