import { group } from '../group.ts';
import { pitchName } from '../music/pitch.ts';
import { add, compare, type Rational, rationalKey, subtract } from '../music/rational.ts';
import { formatBeatText } from '../words/format-beat.ts';
import { listNames } from '../words/lists.ts';
import { beatAt } from './bars/beats.ts';
import type { Note } from './model/note.ts';
import type { Score } from './model/score.ts';

/** Notes, by id, that the player plucks later than they are written, and when. */
export type Delays = ReadonlyMap<string, Rational>;

/** Whether a note can wait until a time: it is plucked once, by itself, and its sound has not ended by then. */
export const canWaitUntil = (
  { grace, tiedFrom, ornament, tremolo, role, onset, duration }: Note,
  at: Rational,
): boolean =>
  grace === null &&
  tiedFrom === null &&
  ornament === null &&
  tremolo === null &&
  role !== 'cue' &&
  compare(onset, at) < 0 &&
  compare(at, add(onset, duration)) < 0;

/**
 * The score as it is played with notes plucked later than they are written: each ends when it would have ended. It is
 * what is planned and heard; pages and files keep what is written, and tell the delay (`tellDelays`).
 */
export const delayNotes = (score: Score, delays: Delays): Score => {
  if (delays.size === 0) return score;
  const delayed = score.notes.flatMap((note): Note[] => {
    const at = delays.get(note.id);
    return at === undefined ? [] : [delayNote(note, at)];
  });
  const others = score.notes.filter(({ id }) => !delays.has(id));
  return { ...score, notes: [...others, ...delayed].sort((a, b) => compare(a.onset, b.onset)) };
};

const delayNote = (note: Note, at: Rational): Note => ({
  ...note,
  onset: at,
  duration: subtract(add(note.onset, note.duration), at),
  chord: note.id,
  arpeggio: null,
});

/** Words for notes that wait, in the language of the pages. */
export type DelayWords = (names: string, beat: string) => string;

/** “F♯5 on beat 3” */
export const DELAYED: DelayWords = (names, beat) => `${names} on beat ${beat}`;

/** The score with what is to be told of notes that wait: in `delayed`, and in `texts` for the pages. */
export const tellDelays = (score: Score, delays: Delays, words: DelayWords = DELAYED): Score => {
  if (delays.size === 0) return score;
  const waiting = score.notes.filter(({ id }) => delays.has(id));
  const together = group(waiting, ({ id, onset }) => `${rationalKey(onset)} ${rationalKey(delays.get(id)!)}`);
  const delayed = [...together.values()].map((notes) => {
    const [{ id, bar, onset }] = notes;
    const names = [...new Set(notes.map(({ pitch }) => pitchName(pitch)))];
    const beat = formatBeatText(rationalKey(beatAt(score.bars[bar]!, delays.get(id)!)));
    return { at: onset, bar, words: words(listNames(names), beat) };
  });
  const texts = delayed.map(({ at, bar, words: text }) => ({
    at,
    bar,
    kind: 'delay' as const,
    text,
    bold: false,
  }));
  return {
    ...score,
    delayed: [...score.delayed, ...delayed],
    texts: [...score.texts, ...texts].sort((a, b) => compare(a.at, b.at)),
  };
};
