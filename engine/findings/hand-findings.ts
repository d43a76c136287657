import { group } from 'd3-array';
import { isSamePitch, midiOf, type Pitch, pitchName, stepOf } from '../music/pitch.ts';
import { add, rationalKey, toNumber } from '../music/rational.ts';
import type { Finding, Mend } from '../pedals/model.ts';
import type { Note, Score } from '../score/model.ts';
import { isBroken, isPlucked } from '../score/plucked.ts';
import { strokeQuarters } from '../score/tremolo.ts';
import { findSlidNotes, otherStrings, writtenString } from '../sounding/needs.ts';
import { LEAST_SOUNDING_SECONDS, RESTRIKE_SECONDS } from '../sounding/string-times.ts';
import type { Moments } from '../time/moments.ts';
import type { PartTime } from '../time/timeline.ts';
import { tell } from './describe-finding.ts';

/** Four fingers of each hand play; the little finger does not (K. W. Gehrkens, *Music Notation and Terminology*, 1914, App. B). */
const FINGERS = 4;
/** A tenth in steps of the staff: common between thumb and fourth finger (The Harp Legacy Project, Typical Compositional Issues). */
const TENTH_STEPS = 9;
/** Useful strings for harmonics, C3 to A5 (T. Goss, 100 Orchestration Tips, no. 68): advice, not a limit. */
const HARMONIC_STRINGS = { lowest: 3 * 7, highest: 5 * 7 + 5 } as const;
/** Harmonics at once: two in the left hand, one in the right (N. Rimsky-Korsakov, *Principles of Orchestration*, from memory). */
const HARMONICS_IN_HAND = { right: 1, left: 2 } as const;

/** A part as the hands play it. */
export interface HandPart {
  readonly score: Score;
  /** Strings of notes, by id, that are played on another than written. */
  readonly played: ReadonlyMap<string, Pitch>;
  readonly leftOut: ReadonlySet<string>;
}

/** A note that is plucked, and the string that is plucked for it, with its pitch. */
interface Pluck {
  readonly note: Note;
  readonly string: Pitch;
}

/** What the hands cannot do, or hardly: the upper staff is taken as the right hand, the lower as the left. */
export const handFindings = (
  { score, played, leftOut }: HandPart,
  { moments, secondsAt }: Pick<PartTime, 'moments' | 'secondsAt'>,
): Finding[] => {
  const slid = findSlidNotes(score, leftOut);
  const plucks = score.notes
    .filter((note) => isPlucked(note) && !slid.has(note.id) && !leftOut.has(note.id))
    .map((note): Pluck => ({ note, string: played.get(note.id) ?? writtenString(note) }));
  return [
    ...chordFindings(score, plucks),
    ...restrikeFindings(score, plucks, moments),
    ...plucks.flatMap((pluck) => tremoloFindings(score, pluck, secondsAt)),
  ];
};

const chordFindings = (score: Score, plucks: readonly Pluck[]): Finding[] =>
  chordsOf(plucks).flatMap((chord) => [
    ...sharedStrings(score, chord),
    ...[1, 2].flatMap((staff) => {
      const hand = chord.filter(({ note }) => note.staff === staff);
      return hand.length === 0
        ? []
        : [...tooMany(score, hand, staff), ...tooWide(score, hand), ...harmonicFindings(score, hand, staff)];
    }),
  ]);

const chordsOf = (plucks: readonly Pluck[]): Pluck[][] => {
  const atOnset = plucks.filter(({ note }) => note.grace === null);
  return [...group(atOnset, ({ note }) => rationalKey(note.onset)).values()];
};

const notesOf = (plucks: readonly Pluck[]): Note[] => plucks.map(({ note }) => note);

const handName = (staff: number): 'right' | 'left' => (staff === 1 ? 'right' : 'left');

/** The mend for a string that is asked for twice: the other string of the same pitch for one of the notes, if there is one. */
const otherString = ({ note, string }: Pluck, which = 'one of them'): Mend[] => {
  const [other] = otherStrings(string);
  return other === undefined
    ? []
    : [
        {
          sentence: `Write ${which} as ${pitchName(other)}.`,
          changes: [{ kind: 'respell', note: note.id, from: string, to: other }],
        },
      ];
};

const sharedStrings = (score: Score, chord: readonly Pluck[]): Finding[] =>
  chord.flatMap(({ note, string }, i) => {
    const twin = chord
      .slice(i + 1)
      .find((other) => other.note.staff !== note.staff && isSamePitch(other.string, string));
    if (twin === undefined) return [];
    const mends: Mend[] = [
      ...otherString(twin),
      {
        sentence: 'Leave it to one hand.',
        changes: [{ kind: 'leave-out', note: twin.note.id, from: twin.string }],
      },
    ];
    return [
      tell(score, {
        code: 'string-for-both-hands',
        severity: 'warn',
        notes: [note, twin.note],
        sentence: `Both hands are to pluck the string ${pitchName(string)} at once.`,
        suggestions: mends.map(({ sentence }) => sentence),
        mends,
      }),
    ];
  });

const tooMany = (score: Score, hand: readonly Pluck[], staff: number): Finding[] => {
  // Two voices may share a note: that is one string, and one finger.
  const strings = new Set(hand.map(({ string }) => stepOf(string))).size;
  if (strings <= FINGERS) return [];
  const orBreak = notesOf(hand).some(isBroken) ? '' : ' break the chord,';
  return [
    tell(score, {
      code: 'too-many-notes-in-hand',
      severity: 'warn',
      notes: notesOf(hand),
      sentence: `The ${handName(staff)} hand is asked for ${strings} notes at once; it plays with four fingers.`,
      suggestions: [`Give notes to the other hand,${orBreak} or leave notes out.`],
    }),
  ];
};

const tooWide = (score: Score, hand: readonly Pluck[]): Finding[] => {
  const sorted = [...hand].sort((a, b) => stepOf(a.string) - stepOf(b.string));
  const lowest = sorted[0]!;
  const highest = sorted.at(-1)!;
  const steps = stepOf(highest.string) - stepOf(lowest.string);
  if (steps <= TENTH_STEPS || notesOf(hand).some(isBroken)) return [];
  return [
    tell(score, {
      code: 'stretch-too-wide',
      severity: 'warn',
      notes: [lowest.note, highest.note],
      sentence: `${pitchName(lowest.note.pitch)} to ${pitchName(highest.note.pitch)} is wider than a tenth for one hand.`,
      suggestions: ['Give a note to the other hand, or break the chord.'],
    }),
  ];
};

const harmonicFindings = (score: Score, hand: readonly Pluck[], staff: number): Finding[] => {
  const harmonics = hand.filter(({ note }) => note.harmonic !== null);
  const most = HARMONICS_IN_HAND[handName(staff)];
  const outside = harmonics.filter(({ string }) => {
    const step = stepOf(string);
    return step < HARMONIC_STRINGS.lowest || step > HARMONIC_STRINGS.highest;
  });
  return [
    ...outside.map(({ note, string }) =>
      tell(score, {
        code: 'harmonic-out-of-range',
        severity: 'warn',
        notes: [note],
        sentence: `The harmonic on the string ${pitchName(string)} lies outside the range where harmonics sound well (C3 to A5).`,
        suggestions: ['Place it within C3 to A5, or pluck it as an ordinary note.'],
      }),
    ),
    ...(harmonics.length <= most
      ? []
      : [
          tell(score, {
            code: 'too-many-harmonics',
            severity: 'warn',
            notes: notesOf(harmonics),
            sentence: `The ${handName(staff)} hand is asked for ${harmonics.length} harmonics at once; it can give ${most}.`,
            suggestions: ['Give a harmonic to the other hand, or leave one out.'],
          }),
        ]),
  ];
};

const restrikeFindings = (score: Score, plucks: readonly Pluck[], moments: Moments): Finding[] => {
  const lastPluck = new Map<number, { readonly pluck: Pluck; readonly seconds: number }>();
  const told: Finding[] = [];
  for (const pluck of plucks) {
    const key = stepOf(pluck.string);
    const { seconds } = moments.all[moments.ofNote(pluck.note)]!;
    const before = lastPluck.get(key);
    lastPluck.set(key, { pluck, seconds });
    if (before === undefined || seconds <= before.seconds) continue;
    told.push(...restrike(score, before.pluck, pluck, seconds - before.seconds));
  }
  return told;
};

const restrike = (score: Score, before: Pluck, again: Pluck, gap: number): Finding[] => {
  const isReset = midiOf(before.string) !== midiOf(again.string);
  if (gap >= (isReset ? LEAST_SOUNDING_SECONDS : RESTRIKE_SECONDS)) return [];
  // A natural note on its neighbour's string is harder to read than a sharp or flat one.
  const altered = [before, again].sort((a, b) => Math.abs(b.string.alter) - Math.abs(a.string.alter));
  const mends = isReset
    ? altered.flatMap((pluck) => otherString(pluck, `the ${pitchName(pluck.string)}`))
    : otherString(again);
  const told = `The string ${pitchName(before.string)} is plucked again after ${gap.toFixed(2)} s`;
  return [
    tell(score, {
      code: 'string-restruck-fast',
      severity: 'warn',
      notes: [before.note, again.note],
      sentence: isReset
        ? `${told} as ${pitchName(again.string)}: there is hardly time to set it anew.`
        : `${told}, before it can sound.`,
      suggestions: mends.map(({ sentence }) => sentence),
      mends,
    }),
  ];
};

/** A tremolo on one string, whose strokes follow each other as fast as its marks say. */
const tremoloFindings = (
  score: Score,
  { note, string }: Pluck,
  secondsAt: PartTime['secondsAt'],
): Finding[] => {
  if (note.tremolo?.kind !== 'single' || note.grace !== null || note.tremolo.marks === 0) return [];
  const quarters = toNumber(note.duration);
  const seconds = secondsAt(add(note.onset, note.duration)) - secondsAt(note.onset);
  const gap = (strokeQuarters(quarters, note.tremolo.marks) * seconds) / quarters;
  if (gap >= RESTRIKE_SECONDS) return [];
  const [other] = otherStrings(string);
  return [
    tell(score, {
      code: 'string-restruck-fast',
      severity: 'warn',
      notes: [note],
      sentence: `The string ${pitchName(string)} is plucked again every ${gap.toFixed(2)} s, before it can sound.`,
      suggestions: [
        other === undefined
          ? 'Write a tremolo between two notes.'
          : `Write the tremolo between ${pitchName(string)} and ${pitchName(other)}, two strings of one pitch.`,
      ],
    }),
  ];
};
