import { group } from 'd3-array';
import {
  compare,
  type LeverMove,
  type Note,
  type Rest,
  rationalKey,
  type Score,
  stepOf,
} from '../../engine/index.ts';
import { elementOwners } from '../layout/document/layout-mei.ts';

/** Middle C: below it a string is written on the lower staff. */
const MIDDLE_C_STEP = 28;

/**
 * Finds what a small note for a lever can stand before: a note, chord or rest that begins at the move's moment, on the
 * staff where the string is read next if there is one.
 *
 * A rest of a whole bar stands in the bar's middle and bars of rest may be joined, so neither will do.
 *
 * @returns for a move the id of a note or rest, or null where nothing begins at its moment
 */
export const findNoteHosts = (score: Score): ((move: LeverMove) => string | null) => {
  const stavesOf = new Map(score.notes.map((note) => [note.id, note.staff]));
  const hosts = hostsByOnset(score);
  const owned = new Set(score.notes.map(({ id }) => id));
  return (move) => {
    if (move.graceNote !== null) return owned.has(move.graceNote) ? move.graceNote : null;
    const wanted =
      stavesOf.get(move.window.before?.note ?? '') ?? (stepOf(move.string) >= MIDDLE_C_STEP ? 1 : 2);
    const here = hosts.get(`${move.bar} ${rationalKey(move.at)}`) ?? [];
    return (here.find(({ staff }) => staff === wanted) ?? here[0])?.id ?? null;
  };
};

/** A rest that MusicXML hides is no more than a space on the page. */
const isPrinted = ({ span }: Rest, { source: { text } }: Score): boolean =>
  !/^<[^>]*\sprint-object\s*=\s*["']no/.test(text.slice(span.start, span.end));

const hostsByOnset = (score: Score): ReadonlyMap<string, readonly (Note | Rest)[]> => {
  const elements = score.source.format === 'mei' ? new Set(elementOwners(score).map(({ id }) => id)) : null;
  const notes = score.notes.filter((note) => note.role === 'played' && note.grace === null);
  const playing = new Set(notes.map(({ bar }) => bar));
  const rests = score.rests.filter(
    (rest) =>
      playing.has(rest.bar) &&
      compare(rest.duration, score.bars[rest.bar]!.duration) < 0 &&
      isPrinted(rest, score),
  );
  return group(
    [...notes, ...rests].filter(({ id }) => elements === null || elements.has(id)),
    ({ bar, onset }) => `${bar} ${rationalKey(onset)}`,
  );
};
