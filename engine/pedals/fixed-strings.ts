import { group } from '../group.ts';
import { isFixedString, isInRange, type PedalHarpProfile, stringOf } from '../harp/profile.ts';
import { isPosition } from '../harp/setting.ts';
import { type Pitch, stepOf } from '../music/pitch.ts';
import { mapNonEmpty, type NonEmpty } from '../non-empty.ts';
import type { Note } from '../score/model/note.ts';
import { otherStrings, type StringNeed } from '../sounding/needs.ts';
import type { StringTuning } from './model.ts';

/** How the strings without discs are tuned for the whole piece, and the notes that this does not serve. */
export interface FixedStringTunings {
  readonly tunings: readonly StringTuning[];
  readonly clashes: readonly FixedStringClash[];
  /** The notes that each tuning serves, in the order of `tunings`. */
  readonly served: readonly NonEmpty<Note>[];
}

/** A note whose string without a disc is tuned to another pitch. */
export interface FixedStringClash extends StringNeed {
  /** The same pitch on another string without a disc that is tuned to it, or free to be; null where there is none. */
  readonly elsewhere: Pitch | null;
}

/** Tunes each string without discs to the pitch that most of its notes ask for. */
export const tuneFixedStrings = (
  asked: readonly StringNeed[],
  profile: PedalHarpProfile,
): FixedStringTunings => {
  const tunings: StringTuning[] = [];
  const clashes: StringNeed[] = [];
  const served: NonEmpty<Note>[] = [];
  for (const string of profile.fixed) {
    const here = asked.filter(({ pitch }) => stepOf(pitch) === stepOf(string));
    if (here.length === 0) continue;
    const wanted = here.flatMap(({ note, pitch: { alter } }) => (isPosition(alter) ? [{ note, alter }] : []));
    const [alter, most] = [...group(wanted, (each) => each.alter)].reduce((a, b) =>
      b[1].length > a[1].length ? b : a,
    );
    tunings.push({ string, alter });
    served.push(mapNonEmpty(most, ({ note }) => note));
    clashes.push(...here.filter(({ pitch }) => pitch.alter !== alter));
  }
  return {
    tunings,
    clashes: clashes.map((clash) => ({ ...clash, elsewhere: findElsewhere(clash, tunings, profile) })),
    served,
  };
};

/** A string with a disc is no way out that is sure: its pedal may be asked for something else. */
const findElsewhere = (
  { pitch, kind }: StringNeed,
  tunings: readonly StringTuning[],
  profile: PedalHarpProfile,
): Pitch | null => {
  if (kind !== 'plucked') return null;
  const gives = (other: Pitch): boolean => {
    if (!isInRange(profile, other) || !isFixedString(profile, other)) return false;
    const tuned = tuningOf(other, tunings);
    return tuned === null || tuned.alter === other.alter;
  };
  return otherStrings(pitch).find(gives) ?? null;
};

/** What a string without a disc is tuned to; null where the piece leaves it alone. */
export const tuningOf = (pitch: Pitch, tunings: readonly StringTuning[]): StringTuning | null =>
  tunings.find(({ string }) => stepOf(string) === stepOf(stringOf(pitch))) ?? null;
