import { midiOf, pitchName } from '../../music/pitch.ts';
import { type Rational, rationalKey } from '../../music/rational.ts';
import type { BarRepeat } from '../model.ts';
import type { PlacedNote } from './placed-note.ts';
import type { RemarkList } from './remark-list.ts';
import type { Timeline } from './timeline.ts';

/**
 * Finds for each tied note the one it goes on from: of the same string and pitch, ending where it begins. A note at the
 * start of a later ending goes on from before the first one. A tie to another spelling changes the string: that note
 * is plucked.
 *
 * @param notes in order of time
 * @returns the id of the earlier note by the id of the later one
 */
export const findTies = (
  notes: readonly PlacedNote[],
  repeats: readonly BarRepeat[],
  timeline: Timeline,
  numbers: readonly string[],
  remarks: RemarkList,
): ReadonlyMap<string, string> => {
  const open = new OpenTies();
  const ties = new Map<string, string>();
  for (const note of notes) if (note.raw.marks.tieStart) open.start(note);
  for (const note of notes) {
    if (!note.raw.marks.tieStop) continue;
    const times = [note.onset, ...beforeFirstEnding(note, repeats, timeline)];
    const from = times.map((time) => open.find(note, time)).find((found) => found !== null) ?? null;
    if (from !== null) {
      ties.set(note.id, from.id);
      continue;
    }
    const enharmonic = open.findEnharmonic(note, note.onset);
    const what =
      enharmonic === null
        ? 'A tie ends at a note without coming from one of the same pitch; the note is plucked'
        : `A tie joins two strings, ${pitchName(enharmonic.string)} and ${pitchName(note.string)}; the second note is plucked`;
    remarks.skip(what, numbers[note.raw.bar]!);
  }
  return ties;
};

/** For a note at the very start of a second or later ending: the time at which the first of these endings starts. */
const beforeFirstEnding = (
  { raw, onset }: PlacedNote,
  repeats: readonly BarRepeat[],
  timeline: Timeline,
): readonly Rational[] => {
  if (raw.at.num !== 0 || (repeats[raw.bar]?.endings.length ?? 0) === 0) return [];
  let first = raw.bar;
  while ((repeats[first - 1]?.endings.length ?? 0) > 0) first -= 1;
  const start = timeline.onsets[first]!;
  return start.num === onset.num && start.den === onset.den ? [] : [start];
};

/** More voices than this on one string at one time are not told apart. */
const MOST_UNISONS = 32;

/** Notes that a tie leads on from, by the time at which they end. */
class OpenTies {
  readonly #byPitch = new Map<string, PlacedNote[]>();
  readonly #byKey = new Map<string, PlacedNote>();
  readonly #taken = new Set<string>();

  start(note: PlacedNote): void {
    const pitch = pitchKey(note, note.end);
    const unisons = this.#byPitch.get(pitch) ?? [];
    if (unisons.length < MOST_UNISONS) unisons.push(note);
    this.#byPitch.set(pitch, unisons);
    this.#byKey.set(soundKey(note, note.end), note);
  }

  /** Prefers a note that no other tie has taken, then the same voice, then the same staff. */
  find(note: PlacedNote, end: Rational): PlacedNote | null {
    let best: PlacedNote | null = null;
    let bestRank = -1;
    for (const each of this.#byPitch.get(pitchKey(note, end)) ?? []) {
      const rank =
        (this.#taken.has(each.id) ? 0 : 4) +
        (each.raw.voice === note.raw.voice ? 2 : 0) +
        (each.raw.staff === note.raw.staff ? 1 : 0);
      if (each.id !== note.id && rank > bestRank) [best, bestRank] = [each, rank];
    }
    if (best !== null) this.#taken.add(best.id);
    return best;
  }

  /** A note that sounds the same but is written on another string. */
  findEnharmonic(note: PlacedNote, end: Rational): PlacedNote | null {
    return this.#byKey.get(soundKey(note, end)) ?? null;
  }
}

const pitchKey = ({ string: { letter, alter, octave } }: PlacedNote, time: Rational): string =>
  `${letter}${alter} ${octave} ${rationalKey(time)}`;

const soundKey = ({ string }: PlacedNote, time: Rational): string => `${midiOf(string)} ${rationalKey(time)}`;
