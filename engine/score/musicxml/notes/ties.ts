import { midiOf, pitchName } from '../../../music/pitch.ts';
import { compare, equals, type Rational, rationalKey, subtract } from '../../../music/rational.ts';
import type { BarRepeat } from '../../model/bar.ts';
import type { RemarkList } from '../remark-list.ts';
import type { Timeline } from '../timeline.ts';
import type { PlacedNote } from './placed-note.ts';

/** The ties of the harp, by note ids. */
export interface Ties {
  /** For each tied note the one it goes on from. */
  readonly from: ReadonlyMap<string, string>;
  /** Lengths of notes that a tie prolongs to the end of their chord or of a hidden double. */
  readonly lengths: ReadonlyMap<string, Rational>;
}

/**
 * Finds for each tied note the one it goes on from: of the same string and pitch, ending where it begins. A note that
 * is shorter than its chord may also be tied to where the chord ends. A note at the start of a later ending goes on
 * from before the first one. A tie to another spelling changes the string: that note is plucked.
 *
 * @param notes in order of time
 */
export const findTies = (
  notes: readonly PlacedNote[],
  repeats: readonly BarRepeat[],
  timeline: Timeline,
  remarks: RemarkList,
): Ties => {
  const open = new OpenTies(notes);
  const from = new Map<string, string>();
  const lengths = new Map<string, Rational>();
  const tie = (note: PlacedNote): boolean =>
    [note.onset, ...beforeFirstEnding(note, repeats, timeline)].some((time) => {
      const start = open.take(note, time);
      if (start === null) return false;
      from.set(note.id, start.id);
      if (!equals(start.end, time)) lengths.set(start.id, subtract(time, start.onset));
      return true;
    });
  for (const note of notes) {
    if (note.raw.marks.tieStop && !tie(note)) remarks.skip(whyPlucked(note, open), note.raw.bar);
  }
  return { from, lengths };
};

/** Why a note that bears the end of a tie is plucked all the same. */
const whyPlucked = (note: PlacedNote, open: OpenTies): string => {
  const enharmonic = open.findEnharmonic(note);
  if (enharmonic !== null)
    return `A tie joins two strings, ${pitchName(enharmonic.string)} and ${pitchName(note.string)}; the second note is plucked`;
  const start = open.findStartBefore(note);
  if (start === null)
    return 'A tie ends at a note, but none of the same pitch starts it; the note is plucked';
  const first = start.tie?.isHidden ? 'hidden first note' : 'first note';
  return compare(start.end, note.onset) < 0
    ? `The ${first} of a tie ends before the second begins; the second note is plucked`
    : `The ${first} of a tie is still sounding when the second begins; the second note is plucked`;
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

/** More voices than this on one string at one time or in one bar are not told apart. */
const MOST_UNISONS = 32;

/** Notes that a tie leads on from, by the times at which the tied note may begin. */
class OpenTies {
  readonly #byPitch = new Map<string, PlacedNote[]>();
  readonly #byKey = new Map<string, PlacedNote>();
  readonly #inBar = new Map<string, PlacedNote[]>();
  readonly #taken = new Set<string>();

  constructor(notes: readonly PlacedNote[]) {
    for (const note of notes) {
      if (note.tie === null) continue;
      for (const end of [note.end, ...note.tie.laterEnds])
        gather(this.#byPitch, `${lineOf(note)} ${rationalKey(end)}`, note);
      gather(this.#inBar, `${lineOf(note)} ${note.raw.bar}`, note);
      this.#byKey.set(soundKey(note, note.end), note);
    }
  }

  /** Prefers a note that no other tie has taken, then one that itself ends there, then the same voice and staff. */
  take(note: PlacedNote, end: Rational): PlacedNote | null {
    let best: PlacedNote | null = null;
    let bestRank = -1;
    for (const each of this.#byPitch.get(`${lineOf(note)} ${rationalKey(end)}`) ?? []) {
      const rank =
        (this.#taken.has(each.id) ? 0 : 8) +
        (equals(each.end, end) ? 4 : 0) +
        (each.raw.voice === note.raw.voice ? 2 : 0) +
        (each.raw.staff === note.raw.staff ? 1 : 0);
      if (each.id !== note.id && rank > bestRank) [best, bestRank] = [each, rank];
    }
    if (best !== null) this.#taken.add(best.id);
    return best;
  }

  /** A note that ends here and sounds the same, but is written on another string. */
  findEnharmonic(note: PlacedNote): PlacedNote | null {
    return this.#byKey.get(soundKey(note, note.onset)) ?? null;
  }

  /** The last note of the same pitch in this bar or the one before from which a tie leads nowhere. */
  findStartBefore(note: PlacedNote): PlacedNote | null {
    for (const bar of [note.raw.bar, note.raw.bar - 1]) {
      const found = this.#inBar
        .get(`${lineOf(note)} ${bar}`)
        ?.findLast((each) => compare(each.onset, note.onset) < 0);
      if (found !== undefined) return this.#taken.has(found.id) ? null : found;
    }
    return null;
  }
}

const gather = (groups: Map<string, PlacedNote[]>, key: string, note: PlacedNote): void => {
  const group = groups.get(key);
  if (group === undefined) groups.set(key, [note]);
  else if (group.length < MOST_UNISONS) group.push(note);
};

const lineOf = ({ string: { letter, alter, octave } }: PlacedNote): string => `${letter}${alter} ${octave}`;

const soundKey = ({ string }: PlacedNote, time: Rational): string => `${midiOf(string)} ${rationalKey(time)}`;
