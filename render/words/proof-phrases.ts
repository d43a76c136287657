import type { NoteNames } from '../../engine/index.ts';
import {
  capitalize,
  type Foot,
  type HarpKind,
  type PedalAt,
  type Pitch,
  type TextPlace,
} from '../../engine/index.ts';
import type { ProofSentences } from './finding-words.ts';

/** What goes wrong for a note, as names: what it needs, what it gets, and by which marking. */
export interface ToldFault {
  readonly needed: string;
  readonly stands: string;
  readonly by: string;
}

/**
 * What the sentences of proofreading are made of in one language, the same for pedals and for levers where it can be.
 * Notes, changes and places come as names; sentences may begin small.
 */
export interface ProofPhrases {
  readonly noMarkings: Readonly<Record<HarpKind, string>>;
  readonly unclear: Readonly<Record<HarpKind, (words: string) => string>>;
  readonly unknown: (letters: readonly string[]) => string;
  readonly ornamentOn: (note: string) => string;
  /** @param place of the marking; null for what was set before the start */
  readonly by: (place: TextPlace | null) => string;
  /** On which passes, with a space before it; empty for all. */
  readonly times: (passes: readonly number[]) => string;
  readonly stillHeld: (change: string, note: string, needed: string) => string;
  readonly soundsWrong: (note: string, times: string, fault: ToldFault) => string;
  readonly soundsWrongOnReturn: (note: string, bar: string, fault: ToldFault) => string;
  readonly tooQuick: (foot: Foot, change: string, note: string, bar: string, seconds: number) => string;
  readonly contradict: (first: string, second: string) => string;
  readonly needless: Readonly<
    Record<'stands' | 'unasked', Readonly<Record<HarpKind, (change: string) => string>>>
  > & { readonly twice: (change: string) => string };
  readonly bends: (change: string, note: string) => string;
  readonly late: (change: string, note: string) => string;
  readonly early: (change: string, note: string) => string;
  readonly glissando: (sounding: readonly string[], expected: readonly string[]) => string;
  readonly noSuchLever: (name: string) => string;
  readonly notInTuning: (name: string, tuning: string) => string;
  readonly startUntold: string;
  readonly noHand: (change: string, note: string, bar: string) => string;
  readonly tooClose: (change: string, note: string, bar: string) => string;
}

/** The sentences of a language from its phrases; each begins with a capital letter. */
export const proofSentences = (phrases: ProofPhrases): ProofSentences => {
  const sentences: ProofSentences = { ...pedalSentences(phrases), ...leverSentences(phrases) };
  const capitalized = Object.entries<(...facts: readonly never[]) => string>(sentences).map(
    ([code, tell]) => [code, (...facts: readonly never[]) => capitalize(tell(...facts))] as const,
  );
  return Object.fromEntries(capitalized) as ProofSentences;
};

/** What is told of levers: their codes say so. */
type LeverCode = Extract<keyof ProofSentences, `${string}lever${string}`>;

const pedalSentences = (phrases: ProofPhrases): Omit<ProofSentences, LeverCode> => ({
  'no-markings': () => phrases.noMarkings.pedal,
  'words-not-understood': ({ words }) => phrases.unclear.pedal(words),
  'notes-before-marking': ({ letters }, names) => phrases.unknown(letters.map(names.letter)),
  'note-not-served': (facts, names) => {
    const fault = pedalFault(facts, names, phrases);
    return facts.isHeld
      ? phrases.stillHeld(fault.stands, subject(facts, names, phrases), fault.needed)
      : phrases.soundsWrong(subject(facts, names, phrases), phrases.times(facts.passes), fault);
  },
  'repeat-lands-wrong': (facts, names) =>
    phrases.soundsWrongOnReturn(
      subject(facts, names, phrases),
      facts.landingBar,
      pedalFault(facts, names, phrases),
    ),
  'change-too-quick': ({ foot, change, pitch, barName, lateSeconds }, names) =>
    phrases.tooQuick(foot, names.change(change), names.pitch(pitch), barName, lateSeconds),
  'markings-contradict': ({ first, second }, { change }) => phrases.contradict(change(first), change(second)),
  'marking-needless': ({ change, why }, names) => tellNeedless(why, 'pedal', names.change(change), phrases),
  'marking-bends-string': ({ change, pitch }, names) =>
    phrases.bends(names.change(change), names.pitch(pitch)),
  'marking-late': ({ change, pitch }, names) => phrases.late(names.change(change), names.pitch(pitch)),
  'marking-early': ({ change, pitch }, names) => phrases.early(names.change(change), names.pitch(pitch)),
  'glissando-unlike-key': ({ sounding, expected }, { change }) =>
    phrases.glissando(sounding.map(change), expected.map(change)),
});

const leverSentences = (phrases: ProofPhrases): Pick<ProofSentences, LeverCode> => ({
  'no-lever-markings': () => phrases.noMarkings.lever,
  'lever-words-not-understood': ({ words }) => phrases.unclear.lever(words),
  'lever-name-not-on-harp': ({ name, why, tuning }, names) =>
    why === 'string'
      ? phrases.noSuchLever(names.written(name))
      : phrases.notInTuning(names.written(name), names.tuning(tuning)),
  'levers-not-told': () => phrases.startUntold,
  'lever-note-not-served': (facts, names) => {
    const { isHeld, landingBar, markingPlace, passes } = facts;
    const [needed, stands] = [names.lever(facts.needed), names.lever(facts.stands)];
    const note = subject(facts, names, phrases);
    if (isHeld) return phrases.stillHeld(stands, note, needed);
    const fault = { needed, stands, by: phrases.by(markingPlace) };
    return landingBar === null
      ? phrases.soundsWrong(note, phrases.times(passes), fault)
      : phrases.soundsWrongOnReturn(note, landingBar, fault);
  },
  'lever-marking-without-time': ({ change, pitch, barName, why }, names) => {
    const tell = why === 'no-hand' ? phrases.noHand : phrases.tooClose;
    return tell(names.lever(change), names.pitch(pitch), barName);
  },
  'lever-markings-contradict': ({ first, second }, { lever }) =>
    phrases.contradict(lever(first), lever(second)),
  'lever-marking-needless': ({ change, why }, names) =>
    tellNeedless(why, 'lever', names.lever(change), phrases),
  'lever-marking-bends-string': ({ change, pitch }, names) =>
    phrases.bends(names.lever(change), names.pitch(pitch)),
  'lever-marking-late': ({ change, pitch }, names) => phrases.late(names.lever(change), names.pitch(pitch)),
  'lever-marking-early': ({ change, pitch }, names) => phrases.early(names.lever(change), names.pitch(pitch)),
});

interface NoteMeant {
  readonly pitch: Pitch;
  readonly isOfOrnament: boolean;
}

interface PedalFault {
  readonly needed: PedalAt;
  readonly stands: PedalAt;
  readonly markingPlace: TextPlace;
}

const subject = ({ pitch, isOfOrnament }: NoteMeant, names: NoteNames, phrases: ProofPhrases): string =>
  isOfOrnament ? phrases.ornamentOn(names.pitch(pitch)) : names.pitch(pitch);

const pedalFault = (
  { needed, stands, markingPlace }: PedalFault,
  { change }: NoteNames,
  phrases: ProofPhrases,
): ToldFault => ({ needed: change(needed), stands: change(stands), by: phrases.by(markingPlace) });

const tellNeedless = (
  why: 'stands' | 'unasked' | 'twice',
  harp: HarpKind,
  change: string,
  { needless }: ProofPhrases,
): string => (why === 'twice' ? needless.twice(change) : needless[why][harp](change));
