import type { Pitch } from '../../../music/pitch.ts';
import { add, compare, equals, type Rational, rationalKey } from '../../../music/rational.ts';
import type { Harmonic } from '../../model/note.ts';
import { transpose } from '../attributes.ts';
import type { IdRegistry } from '../ids.ts';
import type { RawNote } from '../raw-part.ts';
import type { RemarkList } from '../remark-list.ts';
import { type Timeline, timeOf } from '../timeline.ts';

/** The tie that leads on from a note. */
export interface TieStart {
  /** Where the tied note may begin beside the end of this one: where its chord or a hidden double of it ends. */
  readonly laterEnds: readonly Rational[];
  /** Only a hidden double of the note bears the tie. */
  readonly isHidden: boolean;
}

/** A note in score time with its id. */
export interface PlacedNote {
  readonly raw: RawNote;
  readonly id: string;
  readonly onset: Rational;
  readonly end: Rational;
  readonly tie: TieStart | null;
  /** The pitch of the string to be plucked, as it sounds without a harmonic. */
  readonly string: Pitch;
  readonly harmonic: Harmonic | null;
}

/**
 * Places the notes in score time, in the order of the file, without those that would be plucked twice: a hidden note
 * that stands at a printed one, and the touched or sounding pitch beside the base of a harmonic.
 */
export const placeNotes = (
  notes: readonly RawNote[],
  timeline: Timeline,
  ids: IdRegistry,
  remarks: RemarkList,
): readonly PlacedNote[] => {
  const idsOfRepeated = new Map<RawNote, string>();
  for (const { repeats } of notes) if (repeats !== null) idsOfRepeated.set(repeats, '');
  const placed = notes.map((raw): PlacedNote => {
    const id =
      raw.repeats === null
        ? ids.idOf(raw.sourceId, 'n', raw.span)
        : ids.fresh(`${idsOfRepeated.get(raw.repeats)}-r${raw.bar}`);
    if (idsOfRepeated.has(raw)) idsOfRepeated.set(raw, id);
    const onset = timeOf(timeline, raw);
    const { string, harmonic } = stringOf(raw);
    return {
      raw,
      id,
      onset,
      end: add(onset, raw.duration),
      tie: tieStartOf(raw, onset),
      string,
      harmonic,
    };
  });
  reportAssumedHarmonics(placed, remarks);
  return withoutHarmonicDoubles(withoutHiddenDoubles(placed, remarks), remarks);
};

/** A note that is shorter than its chord may be tied to where the chord ends. */
const tieStartOf = ({ marks, duration, chordDuration }: RawNote, onset: Rational): TieStart | null => {
  if (!marks.tieStart) return null;
  return {
    laterEnds: equals(duration, chordDuration) ? [] : [add(onset, chordDuration)],
    isHidden: false,
  };
};

/** Octave harmonics are the harp's: whatever else the file shows, the string is an octave below what sounds. */
const stringOf = (raw: RawNote): Pick<PlacedNote, 'string' | 'harmonic'> => {
  const pitch = transpose(raw.written, raw.transposition);
  const sign = raw.marks.harmonic;
  if (sign === null) return { string: pitch, harmonic: null };
  const string = sign.notated === 'base-pitch' ? pitch : { ...pitch, octave: pitch.octave - 1 };
  return { string, harmonic: { string, ...sign } };
};

const reportAssumedHarmonics = (notes: readonly PlacedNote[], remarks: RemarkList): void => {
  const first = notes.find((note) => note.harmonic?.assumed);
  if (first === undefined) return;
  const message =
    'The file does not say at which pitch its harmonics are written: they are read as the string to pluck, and sound an octave higher';
  remarks.add('harmonic-assumed', first.raw.bar, message);
};

const placeKey = ({ onset, string: { letter, alter, octave }, raw }: PlacedNote): string =>
  `${rationalKey(onset)} ${letter}${alter} ${octave} ${raw.grace === null}`;

const withoutHiddenDoubles = (notes: readonly PlacedNote[], remarks: RemarkList): readonly PlacedNote[] => {
  if (notes.every((note) => note.raw.role !== 'hidden')) return notes;
  const printed = new Set(notes.filter((note) => note.raw.role === 'played').map(placeKey));
  const doubles = new Map<string, PlacedNote[]>();
  const kept = notes.filter((note) => {
    const key = placeKey(note);
    const isDouble = note.raw.role === 'hidden' && printed.has(key);
    if (isDouble) {
      remarks.skip('A hidden note doubles a printed one and is ignored', note.raw.bar);
      doubles.set(key, [...(doubles.get(key) ?? []), note]);
    }
    return !isDouble;
  });
  return kept.map((note) => ({ ...note, tie: tieWithDoubles(note, doubles.get(placeKey(note)) ?? []) }));
};

/** A tie that starts on a hidden double leads on from the printed note. */
const tieWithDoubles = ({ tie }: PlacedNote, doubles: readonly PlacedNote[]): TieStart | null => {
  const hidden = doubles.flatMap((double) =>
    double.tie === null ? [] : [double.end, ...double.tie.laterEnds],
  );
  if (hidden.length === 0) return tie;
  return { laterEnds: [...(tie?.laterEnds ?? []), ...hidden], isHidden: tie === null };
};

const withoutHarmonicDoubles = (notes: readonly PlacedNote[], remarks: RemarkList): readonly PlacedNote[] => {
  const isBase = (note: PlacedNote): boolean =>
    note.harmonic !== null && note.harmonic.notated === 'base-pitch' && !note.harmonic.assumed;
  const bases = new Set(notes.filter(isBase).map((note) => note.raw.chord));
  if (bases.size === 0) return notes;
  return notes.filter((note) => {
    const isDouble =
      note.harmonic !== null && note.harmonic.notated !== 'base-pitch' && bases.has(note.raw.chord);
    if (isDouble) remarks.skip('The sounding pitch printed with a harmonic is not plucked', note.raw.bar);
    return !isDouble;
  });
};

/** By time; at one time grace notes first, then from the upper staff down, else as in the file. */
export const inOrderOfTime = (notes: readonly PlacedNote[]): readonly PlacedNote[] =>
  notes.toSorted(
    (a, b) =>
      compare(a.onset, b.onset) ||
      Number(a.raw.grace === null) - Number(b.raw.grace === null) ||
      a.raw.bar - b.raw.bar ||
      a.raw.staff - b.raw.staff,
  );
