import { isInRange, stringOf } from '../../harp/profile.ts';
import type { Side } from '../../harp/side.ts';
import { isSamePitch } from '../../music/pitch.ts';
import { isNonEmpty, type NonEmpty } from '../../non-empty.ts';
import type { Score } from '../../score/model/score.ts';
import { describeFinding } from '../describe-finding.ts';
import { help } from '../help/help.ts';
import { type NoteFix, noteFix } from '../model.ts';
import {
  chordsOf,
  countStrings,
  divideChord,
  fromBelow,
  HANDS,
  harmonicsOf,
  isBroken,
  isGuessed,
  notesOf,
  otherHandTakes,
  type Pluck,
  stretchOf,
} from './chords.ts';
import type { HandFinding } from './hand-finding.ts';
import { FINGERS, HARMONIC_STRINGS, HARMONICS_IN_HAND, TENTH_STEPS } from './hand-limits.ts';
import { otherString } from './other-string.ts';

/** What the hands cannot take of a chord at once. */
export const chordFindings = (score: Score, plucks: readonly Pluck[]): HandFinding[] =>
  chordsOf(plucks).flatMap((written) => {
    const chord = divideChord(written);
    return [
      ...sharedStrings(score, chord),
      ...HANDS.flatMap((name) => {
        const hand = chord.filter((pluck) => pluck.hand === name);
        return isNonEmpty(hand)
          ? [
              ...tooMany(score, hand, name, chord),
              ...tooWide(score, hand, name, chord),
              ...harmonicFindings(score, hand, name, chord),
            ]
          : [];
      }),
    ];
  });

const sharedStrings = (score: Score, chord: readonly Pluck[]): HandFinding[] =>
  chord.flatMap((pluck, i) => {
    const { note, string, hand } = pluck;
    // Voices of one staff share a note: its two stems are one stroke of one hand.
    const twin = chord
      .slice(i + 1)
      .find(
        (other) =>
          other.hand !== hand && other.note.staff !== note.staff && isSamePitch(other.string, string),
      );
    if (twin === undefined) return [];
    // Nothing that sounds is lost, and no pedal is asked for more.
    const fixes: NoteFix[] = [
      noteFix({ kind: 'one-hand-only', facts: { pitch: string, hand } }, [
        { kind: 'omit', note: twin.note.id, from: twin.string },
      ]),
      ...otherString(twin, 'either'),
    ];
    return [
      describeFinding(
        score,
        'string-for-both-hands',
        { string, guessed: isGuessed([pluck, twin]) },
        { notes: [note, twin.note], fixes },
      ),
    ];
  });

const tooMany = (score: Score, hand: NonEmpty<Pluck>, name: Side, chord: readonly Pluck[]): HandFinding[] => {
  const strings = countStrings(hand);
  if (strings <= FINGERS) return [];
  return [
    describeFinding(
      score,
      'too-many-notes-in-hand',
      { hand: name, notes: strings, guessed: isGuessed(hand) },
      {
        notes: notesOf(hand),
        hand: name,
        help: [
          ...otherHandTakes(chord, name),
          help('leave-out-of-chord', { notes: strings - FINGERS, isBroken: isBroken(hand) }),
        ],
      },
    ),
  ];
};

const tooWide = (score: Score, hand: NonEmpty<Pluck>, name: Side, chord: readonly Pluck[]): HandFinding[] => {
  const sorted = [...hand].sort(fromBelow);
  const lowest = sorted[0]!;
  const highest = sorted.at(-1)!;
  if (stretchOf(hand) <= TENTH_STEPS || isBroken(hand)) return [];
  return [
    describeFinding(
      score,
      'stretch-too-wide',
      { lowest: lowest.note.pitch, highest: highest.note.pitch, guessed: isGuessed(hand) },
      {
        notes: [lowest.note, highest.note],
        hand: name,
        help: [...otherHandTakes(chord, name), help('break-chord', {})],
      },
    ),
  ];
};

const harmonicFindings = (
  score: Score,
  hand: NonEmpty<Pluck>,
  name: Side,
  chord: readonly Pluck[],
): HandFinding[] => {
  const harmonics = harmonicsOf(hand);
  const most = HARMONICS_IN_HAND[name];
  const outside = harmonics.filter(({ string }) => !isInRange(HARMONIC_STRINGS, stringOf(string)));
  return [
    ...outside.map(({ note, string }) =>
      describeFinding(
        score,
        'harmonic-out-of-range',
        { string, range: HARMONIC_STRINGS },
        {
          notes: [note],
          help: [help('move-harmonic', { range: HARMONIC_STRINGS })],
        },
      ),
    ),
    ...(isNonEmpty(harmonics) && harmonics.length > most
      ? [
          describeFinding(
            score,
            'too-many-harmonics',
            { hand: name, harmonics: harmonics.length, most, guessed: isGuessed(harmonics) },
            {
              notes: notesOf(harmonics),
              hand: name,
              help: [...otherHandTakes(chord, name), help('leave-out-harmonic', {})],
            },
          ),
        ]
      : []),
  ];
};
