import {
  beatAt,
  buildClock,
  capitalize,
  compare,
  formatBeat,
  type Move,
  type Note,
  nameOfPosition,
  type Plan,
  type PriceName,
  type Score,
} from '../../engine/index.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { nameInWords, namePitch } from '../sheets/note-words.ts';
import type { Words } from '../words/worded.ts';

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
export const tellMoves = (score: Score, plan: Plan, naming: NoteNaming, words: Words): readonly MoveRow[] => {
  const notes = new Map(score.notes.map((note) => [note.id, note]));
  const secondsAt = buildClock(score.tempo);
  return plan.moves.map((move) => {
    const needed = move.window.before;
    const straightOn = needed !== null && compare(needed.onset, move.at) >= 0;
    return {
      barNumber: printedBarNumber(score.bars[move.bar]!.number),
      beat: formatBeat(move.beat),
      foot: words.feet[move.foot],
      pedal: nameInWords(move.letter, 0, naming),
      from: words.notes.positions[nameOfPosition(move.from)],
      to: words.notes.positions[nameOfPosition(move.to)],
      leadSeconds: straightOn ? secondsAt(needed.onset) - secondsAt(move.at) : null,
      why: tellWhy(move, { score, notes, naming, words }),
    };
  });
};

/** What the words of a move are made of. */
interface Told {
  readonly score: Score;
  readonly notes: ReadonlyMap<string, Note>;
  readonly naming: NoteNaming;
  readonly words: Words;
}

/** Between which notes the move has its place, and what speaks against the moment. */
const tellWhy = (move: Move, told: Told): string => {
  const { study } = told.words;
  const { after, before } = move.window;
  const clauses = [
    after === null ? study.whyFromStart : study.whyAfter(...noteAt(after.note, told)),
    before === null
      ? study.whyAfterJump
      : study.whyBefore(...noteAt(before.note, told), beatOf(before.note, told)),
    ...(move.graceNote === null ? [] : [study.whyBeforeGrace]),
    ...(move.restores ? [study.whyRestores] : []),
  ];
  const drawbacks = drawbacksOf(move, told.words);
  const sentence = `${capitalize(clauses.join(', '))}.`;
  return drawbacks.length === 0 ? sentence : `${sentence} ${study.whyAgainst(drawbacks)}.`;
};

const noteAt = (id: string, { score, notes, naming }: Told): readonly [note: string, bar: string] => {
  const { pitch, bar } = findNote(id, notes);
  return [namePitch(pitch, naming), printedBarNumber(score.bars[bar]!.number)];
};

const beatOf = (id: string, { score, notes }: Told): string => {
  const { onset, bar } = findNote(id, notes);
  return formatBeat(beatAt(score.bars[bar]!, onset));
};

const findNote = (id: string, notes: ReadonlyMap<string, Note>): Note => {
  const note = notes.get(id);
  if (note === undefined) throw new Error(`a plan speaks of ${id}, which is no note of its score`);
  return note;
};

const drawbacksOf = ({ cost }: Move, { drawbacks }: Words): readonly string[] =>
  cost
    .filter(({ amount }) => amount >= LEAST_DRAWBACK)
    .toSorted((a, b) => b.amount - a.amount)
    .slice(0, MOST_DRAWBACKS)
    .map(({ name }) => (Object.hasOwn(drawbacks, name) ? drawbacks[name as PriceName] : name));
