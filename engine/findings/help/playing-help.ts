import type { Side } from '../../harp/side.ts';
import type { Pitch } from '../../music/pitch.ts';
import { nameCount } from '../../words/counts.ts';
import { listNames } from '../../words/lists.ts';
import { ENGLISH_NAMES, type NoteNames } from '../note-names.ts';

type NoFacts = Record<string, never>;

/** What is played again and again until another note comes. */
export type EndedEarlier = 'tremolo' | 'glissando' | 'trill' | 'ornament';

/** What helps hands, feet and players: time, other hands, other players. */
export const PLAYING_HELP = {
  'more-time': (_facts: NoFacts) => 'Take more time here.',
  'more-time-or-second-harp': (_facts: NoFacts) => 'Take more time here, or give a note to another harp.',
  'more-time-or-leave-out': (_facts: NoFacts) =>
    'Take more time here, or leave out a note on one of the two strings.',
  'more-time-for-feet': (_facts: NoFacts) =>
    'Take more time here, play notes on neighbouring strings, or share the passage with another harp.',
  'more-time-for-hands': (_facts: NoFacts) =>
    'Take more time here, or tune the strings so that fewer levers change.',
  'unhurried-at': ({ percent }: { percent: number }) =>
    `At ${percent}% of the tempo these moves are not hurried.`,
  'more-time-for-lever': (_facts: NoFacts) =>
    'Give the hand that sets it more time, or play the note a moment later.',
  'rest-before-note': ({ seconds }: { seconds: number }) =>
    `Give one hand a rest of ${seconds} s before the note, or play the note in another octave.`,
  'rest-for-hand': ({ hand }: { hand: Side }) => `Give the ${hand} hand a rest here.`,
  'second-harp': (_facts: NoFacts) => 'Give one of the notes to another harp.',
  'end-earlier': (
    { what, on, before }: { what: EndedEarlier; on: Pitch; before: Pitch },
    names: NoteNames = ENGLISH_NAMES,
  ) =>
    `End the ${what} ${what === 'glissando' ? 'from' : 'on'} ${names.pitch(on)} before the ${names.pitch(before)}.`,
  'other-hand-takes': (
    { hand, pitches }: { hand: Side; pitches: readonly Pitch[] },
    names: NoteNames = ENGLISH_NAMES,
  ) => `Let the ${hand} hand take ${listNames(pitches.map(names.pitch))}.`,
  'leave-out-of-chord': ({ notes, isBroken }: { notes: number; isBroken: boolean }) =>
    `${isBroken ? 'Leave' : 'Break the chord, or leave'} out ${nameCount(notes, 'note')}.`,
  'break-chord': (_facts: NoFacts) => 'Break the chord.',
  'leave-out-harmonic': (_facts: NoFacts) => 'Leave a harmonic out, or play one as an ordinary note.',
  /** @param pitches two strings with the same pitch; null where there is only one */
  'tremolo-of-two': (
    { pitches }: { pitches: readonly [Pitch, Pitch] | null },
    names: NoteNames = ENGLISH_NAMES,
  ) =>
    pitches === null
      ? 'Write a tremolo between two notes.'
      : `Write the tremolo between ${pitches.map(names.pitch).join(' and ')}, two strings with the same pitch.`,
  'shorten-quiet-passage': ({ without }: { without: 'moves' | 'changes' }) =>
    `Shorten the passage without ${without}.`,
  'move-pin': (_facts: NoFacts) => 'Move or remove the pin.',
  'pin-elsewhere': (_facts: NoFacts) => 'Pin one of the two moves at another moment.',
  'plan-one-player': (_facts: NoFacts) =>
    'Plan the share of one player (option player), where words or stems tell whose the notes are.',
  'part-for-each-player': (_facts: NoFacts) =>
    'Make a part for each player, with the notes of that player alone, and plan each by itself.',
  'mark-players': (_facts: NoFacts) =>
    'Write “I”, “II” or “a 2” over the notes, or give each player a voice of their own.',
} as const;
