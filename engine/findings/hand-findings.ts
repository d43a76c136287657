import { group } from '../group.ts';
import { isInRange, stringOf } from '../harp/profile.ts';
import type { Side } from '../harp/side.ts';
import { perObject } from '../memoize.ts';
import { isSamePitch, midiOf, type Pitch, stepOf } from '../music/pitch.ts';
import { add, rationalKey, toNumber } from '../music/rational.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { isArpeggiated, isPlucked } from '../score/plucked.ts';
import { strokeQuarters } from '../score/tremolo.ts';
import { findHands, type PlayingHand } from '../sounding/hands.ts';
import { findSlidNotes, otherStrings, writtenString } from '../sounding/needs.ts';
import { LEAST_SOUNDING_SECONDS, RESTRIKE_SECONDS } from '../sounding/string-times.ts';
import type { Moments } from '../time/moments.ts';
import type { PartTimeline } from '../time/part-timeline.ts';
import type { HandFindingCode } from './catalogue.ts';
import { describeFinding } from './describe-finding.ts';
import { FINGERS, HARMONIC_STRINGS, HARMONICS_IN_HAND, TENTH_STEPS } from './hand-limits.ts';
import { type Help, help } from './help/help.ts';
import type { NoteOfTwo } from './help/note-help.ts';
import { type Finding, type NoteFix, noteFix } from './model.ts';

/** A part as the hands play it. */
export interface HandPart {
  readonly score: Score;
  /** Strings of notes, by id, that are played on another than written. */
  readonly played: ReadonlyMap<string, Pitch>;
  readonly omitted: ReadonlySet<string>;
}

type HandFinding = Finding<HandFindingCode>;

/** A note that is plucked, and the string that is plucked for it, with its pitch. */
interface Pluck extends PlayingHand {
  readonly note: Note;
  readonly string: Pitch;
}

/** What the hands cannot do, or hardly. */
export const handFindings = (
  { score, played, omitted }: HandPart,
  { moments, secondsAt }: Pick<PartTimeline, 'moments' | 'secondsAt'>,
): HandFinding[] => {
  const slid = findSlidNotes(score, omitted);
  const hands = handsOf(score);
  const plucks = score.notes
    .filter((note) => isPlucked(note) && !slid.has(note.id) && !omitted.has(note.id))
    .map(
      (note): Pluck => ({
        note,
        string: played.get(note.id) ?? writtenString(note),
        ...hands.get(note.id)!,
      }),
    );
  return [
    ...chordFindings(score, plucks),
    ...restrikeFindings(score, plucks, moments),
    ...plucks.flatMap((pluck) => tremoloFindings(score, pluck, secondsAt)),
  ];
};

/** The harp's own: cues are played by others. */
const handsOf = perObject(({ notes }: Score) => findHands(notes.filter(({ role }) => role !== 'cue')));

const chordFindings = (score: Score, plucks: readonly Pluck[]): HandFinding[] =>
  chordsOf(plucks).flatMap((written) => {
    const chord = divideChord(written);
    return [
      ...sharedStrings(score, chord),
      ...HANDS.flatMap((name) => {
        const hand = chord.filter((pluck) => pluck.hand === name);
        return hand.length === 0
          ? []
          : [
              ...tooMany(score, hand, name, chord),
              ...tooWide(score, hand, name, chord),
              ...harmonicFindings(score, hand, name, chord),
            ];
      }),
    ];
  });

const HANDS: readonly Side[] = ['right', 'left'];

const fromBelow = (a: Pluck, b: Pluck): number => stepOf(a.string) - stepOf(b.string);

/** Strings from below with so many of the lowest for the left hand, and the others for the right. */
const divideAt = (strings: readonly Pluck[], lower: number): readonly Pluck[] =>
  strings.map((pluck, i) => ({ ...pluck, hand: i < lower ? 'left' : 'right' }));

/**
 * The chord as two hands can play it: where a hand has more than it can take and only staves say which hand plays, the
 * lowest strings go to the left hand and the others to the right, so that both can. The chord itself where none of that helps.
 */
const divideChord = (chord: readonly Pluck[]): readonly Pluck[] => {
  if (fitsHands(chord)) return chord;
  const open = chord.filter(({ guessed }) => guessed).sort(fromBelow);
  const told = chord.filter(({ guessed }) => !guessed);
  for (let lower = 0; lower <= open.length; lower += 1) {
    const divided = [...told, ...divideAt(open, lower)];
    if (fitsHands(divided)) return divided;
  }
  return chord;
};

/**
 * What the other hand could take of a chord against what words, beams or stems say, so that both hands can play it: the
 * fewest notes. None where no way to divide the strings at one place serves, as for all chords of
 * which only the staves say which hand plays.
 */
const otherHandTakes = (chord: readonly Pluck[], name: Side): readonly Help[] => {
  const sorted = [...chord].sort(fromBelow);
  const ways = Array.from({ length: sorted.length + 1 }, (_, lower) => lower).flatMap((lower) => {
    const [below, above] = [sorted[lower - 1], sorted[lower]];
    // Two voices may share a note: that is one string.
    if (below && above && stepOf(below.string) === stepOf(above.string)) return [];
    const divided = divideAt(sorted, lower);
    const taken = sorted.filter(({ hand }, i) => hand !== divided[i]!.hand);
    return fitsHands(divided) && taken.length > 0 && taken.every(({ hand }) => hand === name) ? [taken] : [];
  });
  const [fewest] = ways.sort((a, b) => a.length - b.length);
  if (fewest === undefined) return [];
  // Two voices may share a string.
  const pitches = [...new Map(fewest.map(({ string }) => [stepOf(string), string])).values()];
  return [help('other-hand-takes', { hand: name === 'left' ? 'right' : 'left', pitches })];
};

/**
 * Whether each hand can take its strings at once: four of them at most, within a tenth unless the chord is broken, and
 * no more harmonics than it can play.
 */
const fitsHands = (chord: readonly Pluck[]): boolean =>
  HANDS.every((name) => {
    const hand = chord.filter((pluck) => pluck.hand === name);
    return (
      countStrings(hand) <= FINGERS &&
      (stretchOf(hand) <= TENTH_STEPS || notesOf(hand).some(isArpeggiated)) &&
      harmonicsOf(hand).length <= HARMONICS_IN_HAND[name]
    );
  });

const harmonicsOf = (hand: readonly Pluck[]): readonly Pluck[] =>
  hand.filter(({ note }) => note.harmonic !== null);

/** Two voices may share a note: that is one string, and one finger. */
const countStrings = (hand: readonly Pluck[]): number =>
  new Set(hand.map(({ string }) => stepOf(string))).size;

/** From the lowest string to the highest, in steps. */
const stretchOf = (hand: readonly Pluck[]): number => {
  const steps = hand.map(({ string }) => stepOf(string));
  return hand.length === 0 ? 0 : Math.max(...steps) - Math.min(...steps);
};

const isGuessed = (hand: readonly Pluck[]): boolean => hand.some(({ guessed }) => guessed);

const chordsOf = (plucks: readonly Pluck[]): Pluck[][] => {
  const atOnset = plucks.filter(({ note }) => note.grace === null);
  return [...group(atOnset, ({ note }) => rationalKey(note.onset)).values()];
};

const notesOf = (plucks: readonly Pluck[]): Note[] => plucks.map(({ note }) => note);

/** The fix for a string that is asked for twice: the other string of the same pitch for one of the notes, if there is one. */
const otherString = ({ note, string }: Pluck, which: NoteOfTwo): NoteFix[] => {
  const [other] = otherStrings(string);
  return other === undefined
    ? []
    : [
        noteFix({ kind: 'write-one-as', facts: { which, pitch: string, to: other } }, [
          { kind: 'respell', note: note.id, from: string, to: other },
        ]),
      ];
};

const sharedStrings = (score: Score, chord: readonly Pluck[]): HandFinding[] =>
  chord.flatMap((pluck, i) => {
    const { note, string, hand } = pluck;
    const twin = chord.slice(i + 1).find((other) => other.hand !== hand && isSamePitch(other.string, string));
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

const tooMany = (
  score: Score,
  hand: readonly Pluck[],
  name: Side,
  chord: readonly Pluck[],
): HandFinding[] => {
  const strings = countStrings(hand);
  if (strings <= FINGERS) return [];
  const isBroken = notesOf(hand).some(isArpeggiated);
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
          help('leave-out-of-chord', { notes: strings - FINGERS, isBroken }),
        ],
      },
    ),
  ];
};

const tooWide = (
  score: Score,
  hand: readonly Pluck[],
  name: Side,
  chord: readonly Pluck[],
): HandFinding[] => {
  const sorted = [...hand].sort(fromBelow);
  const lowest = sorted[0]!;
  const highest = sorted.at(-1)!;
  if (stretchOf(hand) <= TENTH_STEPS || notesOf(hand).some(isArpeggiated)) return [];
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
  hand: readonly Pluck[],
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
    ...(harmonics.length <= most
      ? []
      : [
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
        ]),
  ];
};

const restrikeFindings = (score: Score, plucks: readonly Pluck[], moments: Moments): HandFinding[] => {
  const lastPluck = new Map<number, { readonly pluck: Pluck; readonly seconds: number }>();
  const findings: HandFinding[] = [];
  for (const pluck of plucks) {
    const key = stepOf(pluck.string);
    const { seconds } = moments.all[moments.ofNote(pluck.note)]!;
    const before = lastPluck.get(key);
    lastPluck.set(key, { pluck, seconds });
    if (before === undefined || seconds <= before.seconds) continue;
    findings.push(...restrike(score, before.pluck, pluck, seconds - before.seconds));
  }
  return findings;
};

const restrike = (score: Score, before: Pluck, again: Pluck, gap: number): HandFinding[] => {
  const isReset = midiOf(before.string) !== midiOf(again.string);
  if (gap >= (isReset ? LEAST_SOUNDING_SECONDS : RESTRIKE_SECONDS)) return [];
  // A natural note on its neighbour's string is harder to read than a sharp or flat one.
  const altered = [before, again].sort((a, b) => Math.abs(b.string.alter) - Math.abs(a.string.alter));
  const isGrace = before.note.grace !== null && again.note.grace === null;
  const fixes = isReset
    ? altered.flatMap((pluck) => otherString(pluck, 'only'))
    : [
        ...otherString(again, 'second'),
        ...otherString(before, isGrace ? 'grace' : 'first'),
        noteFix({ kind: 'leave-out-first', facts: { pitch: before.string, isGrace } }, [
          { kind: 'omit', note: before.note.id, from: before.string },
        ]),
      ];
  return [
    describeFinding(
      score,
      'string-restruck-fast',
      { string: before.string, seconds: gap, again: isReset ? again.string : 'same' },
      { notes: [before.note, again.note], fixes },
    ),
  ];
};

/** A tremolo on one string, whose strokes follow each other as fast as its marks say. */
const tremoloFindings = (
  score: Score,
  { note, string }: Pluck,
  secondsAt: PartTimeline['secondsAt'],
): HandFinding[] => {
  if (note.tremolo?.kind !== 'single' || note.grace !== null || note.tremolo.marks === 0) return [];
  const quarters = toNumber(note.duration);
  const seconds = secondsAt(add(note.onset, note.duration)) - secondsAt(note.onset);
  const gap = (strokeQuarters(quarters, note.tremolo.marks) * seconds) / quarters;
  if (gap >= RESTRIKE_SECONDS) return [];
  const [other] = otherStrings(string);
  return [
    describeFinding(
      score,
      'string-restruck-fast',
      { string, seconds: gap, again: 'tremolo' },
      {
        notes: [note],
        help: [help('tremolo-of-two', { pitches: other === undefined ? null : [string, other] })],
      },
    ),
  ];
};
