import { bisector } from 'd3-array';
import { type Letter, stepOf } from '../../music/pitch.ts';
import { add, compare, type Rational, rationalKey, toNumber } from '../../music/rational.ts';
import type { Sweep, SweepWords } from '../model/between-notes.ts';
import type { Note } from '../model/note.ts';
import { quoteWords } from './pedal-words.ts';
import { isJoined, isSmall } from './runs.ts';

/** Words that ask for a glissando, and where they stand. */
export interface GlissandoText {
  readonly at: Rational;
  readonly bar: number;
  readonly staff: number;
  readonly text: string;
  readonly words: SweepWords;
}

/** All glissandi, by signs and in words, and the words whose notes could not be told. */
export interface GlissandiRead {
  readonly sweeps: readonly Sweep[];
  readonly untold: readonly GlissandoText[];
}

/** Notes of one voice that are struck together, the lowest first. */
interface Chord {
  readonly notes: readonly Note[];
  readonly bar: number;
  readonly onset: Rational;
  readonly duration: Rational;
  readonly grace: Note['grace'];
}

/**
 * Finds which notes words ask to be swept: those of one voice that begin where the words stand, sound there or come
 * next in the bar. Small notes of one length that go from string to string, or over a chord's strings, at least three in
 * each direction, are swept from the first to the last; a note that goes on in their direction is where they arrive.
 * Else two notes that follow each other a fourth or more apart are the ends (common practice, no source).
 *
 * Words at a glissando that has a sign are said of that one.
 *
 * @param notes in order of time
 * @param signed the glissandi that have signs, in order of time
 */
export const addGlissandiInWords = (
  notes: readonly Note[],
  signed: readonly Sweep[],
  texts: readonly GlissandoText[],
): GlissandiRead => {
  if (texts.length === 0) return { sweeps: signed, untold: [] };
  const voices = gatherVoices(notes);
  const sweeps = [...signed];
  const places = new Map(signed.map(({ from }, place) => [from, place]));
  const untold: GlissandoText[] = [];
  for (const text of texts) {
    const starts = findStarts(voices, text);
    const found = signedAt(signed, text, starts) ?? firstFound(starts);
    if (found === null) untold.push(text);
    for (const sweep of found ?? []) {
      const known = places.get(sweep.from) ?? sweeps.length;
      places.set(sweep.from, known);
      sweeps[known] = { ...(sweeps[known] ?? sweep), words: joinWords(sweeps[known]?.words, text.words) };
    }
  }
  return { sweeps: sweeps.sort((a, b) => compare(a.start, b.start)), untold };
};

/** What to tell of words whose notes could not be told, without a full stop. */
export const untoldGlissando = ({ text }: GlissandoText): string =>
  `“${quoteWords(text)}” stands where no notes run on in one direction or leap: no glissando is read from it`;

const joinWords = (known: SweepWords | null | undefined, more: SweepWords): SweepWords => ({
  positions: { ...known?.positions, ...more.positions },
  sound: more.sound ?? known?.sound ?? null,
});

/** The chords of each voice in playing order, without cues; a tied chord makes the one before last longer. */
const gatherVoices = (notes: readonly Note[]): readonly (readonly Chord[])[] => {
  const shared = voicesOfSeveralStaves(notes);
  const voices = new Map<string, Chord[]>();
  for (const note of notes) {
    if (note.role === 'cue') continue;
    const name = shared.has(note.voice) ? `${note.voice} on ${note.staff}` : note.voice;
    const voice = voices.get(name) ?? [];
    voices.set(name, voice);
    const last = voice.at(-1);
    const { bar, onset, duration, grace } = note;
    if (last !== undefined && last.notes[0]!.chord === note.chord) {
      voice[voice.length - 1] = { ...last, notes: [...last.notes, note].sort(byString) };
    } else if (note.tiedFrom === null) voice.push({ notes: [note], bar, onset, duration, grace });
    else if (last !== undefined && isJoined(last, note)) {
      voice[voice.length - 1] = { ...last, duration: add(last.duration, duration) };
    }
  }
  return [...voices.values()];
};

/** Names under which two staves have music of their own at once; other voices may cross the staves. */
const voicesOfSeveralStaves = (notes: readonly Note[]): ReadonlySet<string> => {
  const staffAt = new Map<string, { readonly staff: number; readonly chord: string }>();
  const shared = new Set<string>();
  for (const { voice, staff, chord, onset, grace } of notes) {
    if (grace !== null) continue;
    const key = `${voice} ${rationalKey(onset)}`;
    const known = staffAt.get(key);
    if (known === undefined) staffAt.set(key, { staff, chord });
    else if (known.staff !== staff && known.chord !== chord) shared.add(voice);
  }
  return shared;
};

const byString = (a: Note, b: Note): number => stepOf(a.pitch) - stepOf(b.pitch);

/** A chord with which a glissando may begin, and its place in its voice. */
interface Start {
  readonly voice: readonly Chord[];
  readonly index: number;
}

/** What begins at the words on their staff, what sounds there, what begins next in the bar; then the other staves. */
const findStarts = (
  voices: readonly (readonly Chord[])[],
  { at, bar, staff }: GlissandoText,
): readonly Start[] => {
  const isNear = (chord: Chord | undefined): boolean =>
    chord !== undefined && (chord.bar === bar || compare(chord.onset, at) === 0);
  const ranked = voices.flatMap((voice) => {
    const index = firstFrom(voice, at, ({ onset }) => onset);
    const next = isNear(voice[index]) ? [index] : [];
    const before = index - 1;
    const held = voice[before];
    const sounds = held !== undefined && compare(add(held.onset, held.duration), at) > 0 ? [before] : [];
    return [...next, ...sounds].map((place) => {
      const chord = voice[place]!;
      const order = compare(chord.onset, at);
      const rank = (order === 0 ? 0 : order < 0 ? 1 : 2) + (chord.notes[0]!.staff === staff ? 0 : 3);
      return { start: { voice, index: place }, rank };
    });
  });
  return ranked.sort((a, b) => a.rank - b.rank).map(({ start }) => start);
};

/** The index of the first that does not begin before a time. */
const firstFrom = <T>(inOrder: readonly T[], at: Rational, onsetOf: (each: T) => Rational): number =>
  bisector((each: T, time: Rational) => compare(onsetOf(each), time)).left(inOrder, at);

type Ends = Omit<Sweep, 'words'>;

/** No more glissandi sound at once than a player has fingers. */
const MOST_AT_ONCE = 10;

/** Glissandi with signs that begin with the notes at the words, or sound there. */
const signedAt = (
  signed: readonly Sweep[],
  { at }: GlissandoText,
  starts: readonly Start[],
): readonly Ends[] | null => {
  const ids = new Set(starts.flatMap(({ voice, index }) => voice[index]!.notes.map(({ id }) => id)));
  const near = firstFrom(signed, at, ({ start }) => start);
  const around = signed.slice(Math.max(0, near - MOST_AT_ONCE), near + MOST_AT_ONCE);
  const here = around.filter(
    ({ from, start, end }) => ids.has(from) || (compare(start, at) <= 0 && compare(at, end) < 0),
  );
  return here.length === 0 ? null : here;
};

const firstFound = (starts: readonly Start[]): readonly Ends[] | null => {
  for (const { voice, index } of starts) {
    const found = legsFrom(voice, index);
    if (found.length > 0) return found.flatMap(sweepsOf);
  }
  return null;
};

/** Chords that go one way; the last is the arrival. */
type Leg = readonly Chord[];

/** A run turns where its chords do; each leg begins with the chord at which the one before turned. */
const legsFrom = (voice: readonly Chord[], start: number): readonly Leg[] => {
  const legs: Leg[] = [];
  for (let from = start; ; ) {
    const run = runFrom(voice, from);
    const end = from + run.length;
    const arrival = voice[end];
    const arrives = arrival !== undefined && goesOn(run, arrival);
    const isFar = arrives && Math.abs(stepsBetween(run.at(-1)!, arrival)) >= FAR_STEPS;
    if (run.length < LEAST_RUN && !(isFar && (legs.length === 0 || run.length > 1))) return legs;
    legs.push(arrives ? [...run, arrival] : run);
    if (arrives) return legs;
    from = end - 1;
  }
};

const LEAST_RUN = 3;
/** A fourth. */
const FAR_STEPS = 3;
/** A fifth: the widest step in a chord's strings. */
const WIDEST_STEP = 4;

/** Small notes of one length that go one way and ask each letter for one position. */
const runFrom = (voice: readonly Chord[], start: number): readonly Chord[] => {
  const run = [voice[start]!];
  const alters = new Map<Letter, number>();
  if (!isSmall(run[0]!) || !agrees(run[0]!, alters)) return run;
  for (let i = start + 1; i < voice.length; i += 1) {
    const next = voice[i]!;
    if (
      !areAlike(run[0]!, next) ||
      !goesOn(run, next) ||
      Math.abs(stepsBetween(run.at(-1)!, next)) > WIDEST_STEP
    )
      break;
    if (!agrees(next, alters)) break;
    run.push(next);
  }
  return run;
};

/** Of one length, but for what a file rounds in tuplets; or grace notes both. */
const areAlike = (a: Chord, b: Chord): boolean => {
  const [one, other] = [toNumber(a.duration), toNumber(b.duration)];
  return (a.grace === null) === (b.grace === null) && Math.abs(one - other) <= ROUNDED * one;
};

const ROUNDED = 0.1;

/** Whether a chord follows a run at once, and in its direction. */
const goesOn = (run: readonly Chord[], next: Chord): boolean => {
  const way = run.length > 1 ? Math.sign(stepsBetween(run[0]!, run[1]!)) : 0;
  const step = Math.sign(stepsBetween(run.at(-1)!, next));
  return isJoined(run.at(-1)!, next) && step !== 0 && (way === 0 || way === step);
};

const stepsBetween = (a: Chord, b: Chord): number => stepOf(b.notes[0]!.pitch) - stepOf(a.notes[0]!.pitch);

const agrees = ({ notes }: Chord, alters: Map<Letter, number>): boolean =>
  notes.every(({ pitch: { letter, alter } }) => {
    const known = alters.get(letter) ?? alter;
    alters.set(letter, known);
    return known === alter;
  });

/** One glissando for each note of the first chord that has a partner in the last. */
const sweepsOf = (leg: Leg): readonly Ends[] => {
  const [first, last] = [leg[0]!, leg.at(-1)!];
  return first.notes.slice(0, last.notes.length).flatMap((from, i) => {
    const to = last.notes[i]!;
    if (stepOf(from.pitch) === stepOf(to.pitch)) return [];
    return [
      {
        kind: 'glissando',
        from: from.id,
        to: to.id,
        start: from.onset,
        end: to.onset,
        bar: from.bar,
      } as const,
    ];
  });
};
