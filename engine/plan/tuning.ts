import { type PedalHarpProfile, stringOf } from '../harp/profile.ts';
import { isPosition, type Position } from '../harp/setting.ts';
import type { Pitch } from '../music/pitch.ts';
import type { Note } from '../score/model.ts';
import type { Tuning } from './model.ts';

/** How the strings without discs are tuned for the whole piece, and the notes that this does not serve. */
export interface FixedTuning {
  readonly tunings: readonly Tuning[];
  readonly clashes: readonly Note[];
  /** The notes that each tuning serves, in the order of `tunings`. */
  readonly served: readonly (readonly Note[])[];
}

/** Tunes each string without discs to the pitch that most of its notes ask for. */
export const tuneFixedStrings = (
  asked: readonly { readonly note: Note; readonly pitch: Pitch }[],
  profile: PedalHarpProfile,
): FixedTuning => {
  const tunings: Tuning[] = [];
  const clashes: Note[] = [];
  const served: Note[][] = [];
  for (const string of profile.fixed) {
    const here = asked.filter(
      ({ pitch }) => stringOf(pitch).letter === string.letter && pitch.octave === string.octave,
    );
    if (here.length === 0) continue;
    const counts = new Map<Position, number>();
    for (const { pitch } of here) {
      if (isPosition(pitch.alter)) counts.set(pitch.alter, (counts.get(pitch.alter) ?? 0) + 1);
    }
    const [alter] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a));
    tunings.push({ string, alter });
    served.push(here.filter(({ pitch }) => pitch.alter === alter).map(({ note }) => note));
    clashes.push(...here.filter(({ pitch }) => pitch.alter !== alter).map(({ note }) => note));
  }
  return { tunings, clashes, served };
};
