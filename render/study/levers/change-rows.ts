import {
  beatAt,
  buildClock,
  compare,
  formatBeat,
  type LeverMove,
  type LeverPlan,
  type Note,
  type Score,
} from '../../../engine/index.ts';
import { printedBarNumber } from '../../markings/bar-number.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { nameInWords, namePitch } from '../../sheets/note-words.ts';
import type { Words } from '../../words/worded.ts';
import { nameLeverChange } from './hand-line.ts';

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
export const tellChanges = (
  score: Score,
  plan: LeverPlan,
  naming: NoteNaming,
  words: Words,
): readonly ChangeRow[] => {
  const { hands, positions } = words.levers;
  const notes = new Map(score.notes.map((note) => [note.id, note]));
  const secondsAt = buildClock(score.tempo);
  return plan.moves.map((move) => {
    const needed = move.window.before;
    const straightOn = needed !== null && compare(needed.onset, move.at) >= 0;
    return {
      barNumber: printedBarNumber(score.bars[move.bar]!.number),
      beat: formatBeat(move.beat),
      hand: hands[move.hand],
      lever: `${nameInWords(move.string.letter, 0, naming)}${move.string.octave}`,
      to: positions[move.to],
      gives: nameLeverChange(move, naming),
      leadSeconds: straightOn ? secondsAt(needed.onset) - secondsAt(move.at) : null,
      why: tellWhy(move, { score, notes, naming, words }),
    };
  });
};

/** What the words of a change are made of. */
interface Told {
  readonly score: Score;
  readonly notes: ReadonlyMap<string, Note>;
  readonly naming: NoteNaming;
  readonly words: Words;
}

/** Between which notes the change has its place, and when its hand is away from the strings. */
const tellWhy = (move: LeverMove, { score, notes, naming, words: { study, levers } }: Told): string => {
  const { after, before } = move.window;
  const find = (id: string): Note => {
    const note = notes.get(id);
    if (note === undefined) throw new Error(`a plan speaks of ${id}, which is no note of its score`);
    return note;
  };
  const barOf = (note: Note): string => printedBarNumber(score.bars[note.bar]!.number);
  const told = (id: string | undefined): string | null =>
    id === undefined ? null : levers.noteAt(namePitch(find(id).pitch, naming), barOf(find(id)));
  const clauses = [
    after === null
      ? study.whyFromStart
      : study.whyAfter(namePitch(find(after.note).pitch, naming), barOf(find(after.note))),
    before === null
      ? study.whyAfterJump
      : study.whyBefore(
          namePitch(find(before.note).pitch, naming),
          barOf(find(before.note)),
          formatBeat(beatAt(score.bars[find(before.note).bar]!, before.onset)),
        ),
    ...(move.graceNote === null ? [] : [study.whyBeforeGrace]),
    ...(move.restores ? [study.whyRestores] : []),
    levers.handFree(move.hand, told(move.handAway.after?.note), told(move.handAway.before?.note)),
  ];
  const sentence = clauses.join(', ');
  return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
};
