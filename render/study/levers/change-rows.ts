import {
  beatAt,
  buildClock,
  compare,
  formatBeat,
  type LeverMove,
  type LeverPlan,
  type Note,
  pitchName,
  type Score,
} from '../../../engine/index.ts';
import { printedBarNumber } from '../../markings/bar-number.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { nameInWords } from '../../sheets/note-words.ts';
import { STUDY_WORDS } from '../words.ts';
import { nameLeverChange } from './hand-line.ts';
import { HAND_WORDS, LEVER_WORDS as WORDS } from './lever-words.ts';

/** One change of a lever as the table tells it. */
export interface ChangeRow {
  readonly barNumber: string;
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
export const tellChanges = (score: Score, plan: LeverPlan, naming: NoteNaming): readonly ChangeRow[] => {
  const notes = new Map(score.notes.map((note) => [note.id, note]));
  const secondsAt = buildClock(score.tempo);
  return plan.moves.map((move) => {
    const needed = move.window.before;
    const straightOn = needed !== null && compare(needed.onset, move.at) >= 0;
    return {
      barNumber: printedBarNumber(score.bars[move.bar]!.number),
      beat: formatBeat(move.beat),
      hand: HAND_WORDS[move.hand],
      lever: `${nameInWords(move.string.letter, 0, naming)}${move.string.octave}`,
      to: WORDS[move.to],
      gives: nameLeverChange(move, naming),
      leadSeconds: straightOn ? secondsAt(needed.onset) - secondsAt(move.at) : null,
      why: tellWhy(move, score, notes),
    };
  });
};

/** Between which notes the change has its place, and when its hand is away from the strings. */
const tellWhy = (move: LeverMove, score: Score, notes: ReadonlyMap<string, Note>): string => {
  const { after, before } = move.window;
  const find = (id: string): Note => {
    const note = notes.get(id);
    if (note === undefined) throw new Error(`a plan speaks of ${id}, which is no note of its score`);
    return note;
  };
  const barOf = (note: Note): string => printedBarNumber(score.bars[note.bar]!.number);
  const told = (id: string | undefined): string | null =>
    id === undefined ? null : WORDS.noteAt(pitchName(find(id).pitch), barOf(find(id)));
  const clauses = [
    after === null
      ? STUDY_WORDS.whyFromStart
      : STUDY_WORDS.whyAfter(pitchName(find(after.note).pitch), barOf(find(after.note))),
    before === null
      ? STUDY_WORDS.whyAfterJump
      : STUDY_WORDS.whyBefore(
          pitchName(find(before.note).pitch),
          barOf(find(before.note)),
          formatBeat(beatAt(score.bars[find(before.note).bar]!, before.onset)),
        ),
    ...(move.graceNote === null ? [] : [STUDY_WORDS.whyBeforeGrace]),
    ...(move.restores ? [STUDY_WORDS.whyRestores] : []),
    WORDS.handFree(HAND_WORDS[move.hand], told(move.handAway.after?.note), told(move.handAway.before?.note)),
  ];
  const sentence = clauses.join(', ');
  return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
};
