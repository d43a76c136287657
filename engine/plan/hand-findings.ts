import { midiOf, type Pitch, pitchName, stepOf } from '../music/pitch.ts';
import { rationalKey } from '../music/rational.ts';
import type { Note, Score } from '../score/model.ts';
import type { Finding } from './model.ts';
import type { Moments } from './moments.ts';
import { findSlidNotes, otherStrings } from './needs.ts';
import { tell } from './telling.ts';

/** Four fingers of each hand play; the little finger does not (K. W. Gehrkens, *Music Notation and Terminology*, 1914, App. B). */
const FINGERS = 4;
/** A tenth in steps of the staff: common between thumb and fourth finger (The Harp Legacy Project, Typical Compositional Issues). */
const TENTH_STEPS = 9;
/** A string plucked again sooner than this hardly sounds (common practice, no source). */
const RESTRIKE_SECONDS = 0.12;
/** Useful strings for harmonics, C3 to A5 (T. Goss, 100 Orchestration Tips, no. 68): advice, not a limit. */
const HARMONIC_STRINGS = { lowest: 3 * 7, highest: 5 * 7 + 5 } as const;
/** Harmonics at once: two in the left hand, one in the right (N. Rimsky-Korsakov, *Principles of Orchestration*, from memory). */
const HARMONICS_IN_HAND = { right: 1, left: 2 } as const;

/** What the hands cannot do, or hardly: the upper staff is taken as the right hand, the lower as the left. */
export const handFindings = (score: Score, moments: Moments): Finding[] => {
  const slid = findSlidNotes(score);
  const plucked = score.notes.filter(
    (note) => note.role !== 'cue' && note.tiedFrom === null && !slid.has(note.id),
  );
  return [...chordFindings(score, plucked), ...restrikeFindings(score, plucked, moments)];
};

const chordFindings = (score: Score, plucked: readonly Note[]): Finding[] =>
  groupsOf(plucked.filter((note) => note.grace === null)).flatMap((chord) => [
    ...sharedStrings(score, chord),
    ...[1, 2].flatMap((staff) => {
      const hand = chord.filter((note) => note.staff === staff);
      return hand.length === 0
        ? []
        : [...tooMany(score, hand, staff), ...tooWide(score, hand), ...harmonicFindings(score, hand, staff)];
    }),
  ]);

const groupsOf = (notes: readonly Note[]): Note[][] => {
  const groups = new Map<string, Note[]>();
  for (const note of notes) {
    const key = rationalKey(note.onset);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [note]);
    else group.push(note);
  }
  return [...groups.values()];
};

const stringPitch = (note: Note): Pitch => note.harmonic?.string ?? note.pitch;

const handName = (staff: number): 'right' | 'left' => (staff === 1 ? 'right' : 'left');

/** The mend for a string that is asked for twice: the other string of the same pitch, if there is one. */
const otherString = (pitch: Pitch): string => {
  const [other] = otherStrings(pitch);
  return other === undefined ? '' : `Write one of them as ${pitchName(other)}.`;
};

const sharedStrings = (score: Score, chord: readonly Note[]): Finding[] =>
  chord.flatMap((note, i) => {
    const pitch = stringPitch(note);
    const twin = chord
      .slice(i + 1)
      .find(
        (other) =>
          other.staff !== note.staff &&
          midiOf(stringPitch(other)) === midiOf(pitch) &&
          stepOf(stringPitch(other)) === stepOf(pitch),
      );
    return twin === undefined
      ? []
      : [
          tell(score, {
            code: 'string-for-both-hands',
            severity: 'warn',
            notes: [note, twin],
            sentence: `Both hands are to pluck the string ${pitchName(pitch)} at once.`,
            suggestions: [otherString(pitch), 'Leave it to one hand.'],
          }),
        ];
  });

const tooMany = (score: Score, hand: readonly Note[], staff: number): Finding[] =>
  hand.length <= FINGERS
    ? []
    : [
        tell(score, {
          code: 'too-many-notes-in-hand',
          severity: 'warn',
          notes: hand,
          sentence: `The ${handName(staff)} hand is asked for ${hand.length} notes at once; it plays with four fingers.`,
          suggestions: ['Give notes to the other hand, break the chord, or leave notes out.'],
        }),
      ];

const tooWide = (score: Score, hand: readonly Note[]): Finding[] => {
  const sorted = [...hand].sort((a, b) => stepOf(stringPitch(a)) - stepOf(stringPitch(b)));
  const lowest = sorted[0]!;
  const highest = sorted.at(-1)!;
  const steps = stepOf(stringPitch(highest)) - stepOf(stringPitch(lowest));
  const broken = hand.some((note) => note.arpeggio !== null && note.arpeggio !== 'none');
  if (steps <= TENTH_STEPS || broken) return [];
  return [
    tell(score, {
      code: 'stretch-too-wide',
      severity: 'warn',
      notes: [lowest, highest],
      sentence: `${pitchName(lowest.pitch)} to ${pitchName(highest.pitch)} is wider than a tenth for one hand.`,
      suggestions: ['Give a note to the other hand, or break the chord.'],
    }),
  ];
};

const harmonicFindings = (score: Score, hand: readonly Note[], staff: number): Finding[] => {
  const harmonics = hand.filter((note) => note.harmonic !== null);
  const most = HARMONICS_IN_HAND[handName(staff)];
  const outside = harmonics.filter((note) => {
    const step = stepOf(stringPitch(note));
    return step < HARMONIC_STRINGS.lowest || step > HARMONIC_STRINGS.highest;
  });
  return [
    ...outside.map((note) =>
      tell(score, {
        code: 'harmonic-out-of-range',
        severity: 'warn',
        notes: [note],
        sentence: `The harmonic on the string ${pitchName(stringPitch(note))} lies outside the range where harmonics sound well (C3 to A5).`,
        suggestions: ['Place it within C3 to A5, or pluck it as an ordinary note.'],
      }),
    ),
    ...(harmonics.length <= most
      ? []
      : [
          tell(score, {
            code: 'too-many-harmonics',
            severity: 'warn',
            notes: harmonics,
            sentence: `The ${handName(staff)} hand is asked for ${harmonics.length} harmonics at once; it can give ${most}.`,
            suggestions: ['Give a harmonic to the other hand, or leave one out.'],
          }),
        ]),
  ];
};

const restrikeFindings = (score: Score, plucked: readonly Note[], moments: Moments): Finding[] => {
  const lastPluck = new Map<string, { note: Note; seconds: number }>();
  const told: Finding[] = [];
  for (const note of plucked) {
    const pitch = stringPitch(note);
    const key = `${pitch.letter}${pitch.octave}`;
    const { seconds } = moments.all[moments.ofNote(note)]!;
    const before = lastPluck.get(key);
    lastPluck.set(key, { note, seconds });
    if (before === undefined || midiOf(stringPitch(before.note)) !== midiOf(pitch)) continue;
    const gap = seconds - before.seconds;
    if (gap <= 0 || gap >= RESTRIKE_SECONDS) continue;
    told.push(
      tell(score, {
        code: 'string-restruck-fast',
        severity: 'warn',
        notes: [before.note, note],
        sentence: `The string ${pitchName(pitch)} is plucked again after ${gap.toFixed(2)} s, before it can sound.`,
        suggestions: [otherString(pitch)],
      }),
    );
  }
  return told;
};
