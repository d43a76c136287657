import type { HarpKind } from '../../harp/harps.ts';
import type { HarpString, StringRange } from '../../harp/profile.ts';
import { describeStringRetuning, type RetunedString } from '../../harp/scordatura.ts';
import type { Setting } from '../../harp/setting.ts';
import type { Letter, Pitch } from '../../music/pitch.ts';
import type { BarRun } from '../../words/bar-names.ts';
import { listBars, nameBars } from '../../words/bars.ts';
import { listNames } from '../../words/lists.ts';
import {
  ENGLISH_NAMES,
  type HeardString,
  type NoteNames,
  nameHeardString,
  type PedalAt,
  type SpelledNote,
} from '../note-names.ts';
import { type OrnamentNote, sayOrnamentNotes } from '../ornament-notes.ts';
import type { StringEntries } from './entry.ts';

/** What concerns the strings of a harp: those that it lacks, that two notes want, that ring on, that are tuned. */
export const STRING_FINDINGS = {
  'out-of-range': {
    severity: 'stop',
    harps: ['pedal', 'lever'],
    failsBy: 'strings',
    ofFastChange: null,
    remedies: [],
    title: 'Outside the range',
    when: 'A note is lower or higher than all strings of the harp.',
    sentence: (
      {
        pitch,
        range: { lowest, highest },
        ofOrnaments,
      }: { pitch: Pitch; range: StringRange; ofOrnaments: readonly OrnamentNote[] },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `The harp has no string for ${names.pitch(pitch)}: its strings go from ${names.string(lowest)} to ${names.string(highest)}.${sayOrnamentNotes(ofOrnaments, names)}`,
    passage: (places: number) => `The harp has no strings for notes in ${places} places.`,
  },
  'string-in-two-pitches': {
    severity: 'stop',
    harps: ['pedal', 'lever'],
    failsBy: 'strings',
    ofFastChange: null,
    remedies: ['later-note', 'second-harp'],
    title: 'One string, two pitches',
    when: 'Notes that sound together need one string at two pitches.',
    sentence: ({ string, rivals, ofOrnaments }: RivalFacts, names: NoteNames = ENGLISH_NAMES) => {
      const given = rivals.map((each) => ('position' in each ? names.change(each) : names.pitch(each)));
      const clash =
        given.length < 2
          ? `The string ${names.string(string)} cannot give ${given.join('')} here.`
          : `The string ${names.string(string)} would have to give ${listNames(given)} at the same time.`;
      return `${clash}${sayOrnamentNotes(ofOrnaments, names)}`;
    },
    passage: (places: number) =>
      `One string would have to give two pitches at the same time, in ${places} places.`,
  },
  'quarter-tone': {
    severity: 'stop',
    harps: ['pedal', 'lever'],
    failsBy: 'strings',
    ofFastChange: null,
    remedies: [],
    title: 'Quarter-tone',
    when: 'A note lies between two semitones, and no string is tuned to it.',
    sentence: ({ pitch, harp }: { pitch: Pitch; harp: HarpKind }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.pitch(pitch)} cannot be played: it lies between two semitones, and no ${harp} gives it.`,
    passage: (places: number) => `${places} notes lie between two semitones, where no string is tuned.`,
  },
  'double-accidental': {
    severity: 'note',
    harps: ['pedal', 'lever'],
    title: 'Double accidental',
    when: 'A note with a double accidental is played on a neighbouring string.',
    sentence: ({ from, to }: { from: Pitch; to: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `No string gives ${names.pitch(from)} under that name: it is played as ${names.pitch(to)}.`,
    passage: (places: number) =>
      `${places} notes with double accidentals are played on neighbouring strings.`,
  },
  'played-on-other-string': {
    severity: 'note',
    harps: ['pedal', 'lever'],
    title: 'Played on a neighbouring string',
    when: 'No string gives a note by its written name, but a neighbouring string gives its pitch; on the pedal harp this happens to the second note of an ornament.',
    sentence: (
      { from, to, isOfOrnament, times, fromBar }: ElsewhereFacts,
      names: NoteNames = ENGLISH_NAMES,
    ) => {
      const subject = isOfOrnament ? `The ${names.pitch(from)} of the ornament` : names.pitch(from);
      const first = fromBar === '' ? '' : ` from bar ${fromBar}`;
      const often = times > 1 ? `, in ${times} places${first}` : '';
      return `${subject} is played on the ${names.string(to)} string, as ${names.pitch(to)}${often}.`;
    },
  },
  'fixed-string-tuning': {
    severity: 'note',
    harps: ['pedal'],
    title: 'String to tune before the piece',
    when: 'The piece uses a string without a disc: it is tuned by hand, as the piece needs it.',
    sentence: (
      { string, change }: { string: HarpString; change: PedalAt },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `No pedal changes the string ${names.string(string)}: tune it to ${names.tunedTo(change)} before the piece.`,
  },
  'fixed-string-in-two-pitches': {
    severity: 'stop',
    harps: ['pedal'],
    failsBy: 'strings',
    ofFastChange: null,
    remedies: ['second-harp'],
    title: 'String without a disc at two pitches',
    when: 'The piece needs a string without a disc at a second pitch.',
    sentence: ({ pitch }: { pitch: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.pitch(pitch)} cannot be played: no pedal changes its string, and the piece needs another pitch from it.`,
    passage: (places: number) =>
      `${places} notes are missing: no pedal changes their strings, which are tuned to other pitches for this piece.`,
  },
  'string-retuned': {
    severity: 'note',
    harps: ['pedal'],
    title: 'Strings tuned lower',
    when: 'Strings are tuned below their usual pitch (option `scordatura`).',
    sentence: ({ tuned }: ScordaturaFacts, names: NoteNames = ENGLISH_NAMES) =>
      `Tune ${listNames(tuned.map(nameTuned(names)))} before the piece.`,
  },
  'string-tuned-higher': {
    severity: 'warn',
    harps: ['pedal'],
    ofFastChange: null,
    title: 'Strings tuned higher',
    when: 'Strings are tuned, and at least one of them above its usual pitch, which strains it (option `scordatura`).',
    sentence: ({ tuned }: ScordaturaFacts, names: NoteNames = ENGLISH_NAMES) =>
      `Tune ${listNames(tuned.map(nameTuned(names)))} before the piece.`,
  },
  'pitch-lost-by-retuning': {
    severity: 'stop',
    harps: ['pedal'],
    failsBy: 'strings',
    ofFastChange: null,
    remedies: ['second-harp'],
    title: 'Pitch lost by the tuning',
    when: 'All strings that could give a note are tuned to something else (option `scordatura`).',
    sentence: ({ pitch }: { pitch: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.pitch(pitch)} cannot be played: its string is retuned, and no other string gives it.`,
    passage: (places: number) =>
      `No string gives ${places} of the notes, because strings are tuned differently for this piece.`,
  },
  'octaves-differ': {
    severity: 'note',
    harps: ['lever'],
    title: 'Octaves differ',
    when: 'Notes of one letter sound together with different accidentals in two octaves, which only a lever harp can play.',
    sentence: (
      { pitches: [one, other] }: { pitches: readonly [Pitch, Pitch] },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `${names.pitch(one)} and ${names.pitch(other)} can be played together as written only on a lever harp: on a pedal harp one pedal moves both strings.`,
    passage: (places: number) =>
      `Octaves of one letter differ in ${places} places: here each string has its own lever, but on a pedal harp one pedal moves both.`,
  },
  'ringing-string-moved': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: 'string-ringing',
    title: 'A string is still ringing',
    when: 'A pedal or lever has to move while a string that it changes is still sounding.',
    sentence: (facts: RingingFacts, names: NoteNames = ENGLISH_NAMES) =>
      facts.harp === 'pedal'
        ? `${names.change(facts.change)} has to be set while ${nameSounding(facts, names)} still sounding, so the change will be heard.`
        : `The lever for ${names.pitch(facts.pitch)} has to be set while its string is still sounding, so the change will be heard.`,
    passage: (places: number) => `${places} changes have to be made while their strings are still ringing.`,
  },
  'glissando-setting-guessed': {
    severity: 'note',
    harps: ['pedal', 'lever'],
    title: 'Glissando not fully stated',
    when: 'The score does not say which accidentals some strings of a glissando have: they are taken from the key signature.',
    sentence: ({ letters, setting, glissandi, untilBar }: GuessedFacts, names: NoteNames = ENGLISH_NAMES) => {
      const until = untilBar === null ? '' : ` from here to bar ${untilBar}`;
      const whose = glissandi === 1 ? 'this glissando' : `${glissandi} glissandi${until}`;
      const given = letters.map((letter) => names.change({ letter, position: setting[letter] }));
      const [are, they] = letters.length === 1 ? ['is', 'it is'] : ['are', 'they are'];
      return `${listNames(letters.map(names.letter))} ${are} not stated for ${whose}; ${they} taken from the key signature as ${listNames(given)}.`;
    },
  },
  'flat-key-rings-fuller': {
    severity: 'note',
    harps: ['pedal'],
    title: 'A flat key rings fuller',
    when: 'The key signature has five sharps or more: with the pedals down the strings are short.',
    sentence: ({ sharps, twin }: { sharps: number; twin: SpelledNote }, names: NoteNames = ENGLISH_NAMES) =>
      `The harp will ring less from here: the ${sharps} sharps of the key signature shorten the strings. ${names.majorKey(twin)} sounds the same and rings fuller.`,
  },
  'shared-notes-kept': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    title: 'Notes of several players not told apart',
    when: 'One player’s notes of a shared part were asked for, and no words or stems tell whose some of them are.',
    sentence: ({ player, bars }: { player: number; bars: readonly BarRun[] }) =>
      `Nothing tells which notes in ${listNames(bars.map(({ from, until }) => nameBars(from, until)))} are for player ${player}: all of them are planned.`,
  },
  'written-for-several': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    title: 'Written for several players',
    when: 'The part’s name or words in it tell of more than one player: “2 Harps”, “div.”, “1.”, “a 2”.',
    sentence: ({ players, dividedFrom }: { players: number; dividedFrom: readonly string[] }) =>
      `This part is written for ${players} players, but planned as if one played every note${
        dividedFrom.length === 0 ? '' : `; the players divide in ${listBars(dividedFrom)}`
      }.`,
  },
} as const satisfies StringEntries;

const nameSounding = (
  { change, sounding }: RingingFacts & { readonly harp: 'pedal' },
  names: NoteNames,
): string =>
  sounding.length === 0
    ? `an earlier ${names.letter(change.letter)} is`
    : `${listNames(sounding.map((each) => nameHeardString(each, names)))} ${sounding.length === 1 ? 'is' : 'are'}`;

export interface RivalFacts {
  readonly string: HarpString;
  /** What it would have to give at one time: by pedals, or by the pitches of a lever harp; one where no other is known. */
  readonly rivals: readonly (PedalAt | Pitch)[];
  /** Which of them no printed note is. */
  readonly ofOrnaments: readonly OrnamentNote[];
}

export interface ScordaturaFacts {
  readonly tuned: readonly RetunedString[];
}

const nameTuned =
  (names: NoteNames) =>
  ({ string, cents }: RetunedString): string =>
    describeStringRetuning(names.string(string), cents);

export interface ElsewhereFacts {
  readonly from: Pitch;
  readonly to: Pitch;
  readonly isOfOrnament: boolean;
  readonly times: number;
  /** Printed number of the first bar; empty if it has none. */
  readonly fromBar: string;
}

/** A change while strings sound: of a pedal with what all those give that it bends, none where they are a glissando’s. */
export type RingingFacts =
  | { readonly harp: 'pedal'; readonly change: PedalAt; readonly sounding: readonly HeardString[] }
  | { readonly harp: 'lever'; readonly pitch: Pitch };

export interface GuessedFacts {
  /** The letters that are not stated. */
  readonly letters: readonly Letter[];
  readonly setting: Setting;
  readonly glissandi: number;
  /** Name of the bar of the last one; null where all are in one bar. */
  readonly untilBar: string | null;
}
