import { type Foot, nameCount, nameMovesInTime, type WantedSound } from '../../../engine/index.ts';

const FOOT: Readonly<Record<Foot, string>> = { left: 'left foot', right: 'right foot' };

const nameSeconds = (seconds: number): string => `${Number(seconds.toFixed(2))} s`;

/** The words of the view of settings, in English; beside `STRINGS`, which has those of the button that opens it. */
export const SETTING_STRINGS = {
  close: 'Close settings',
  pedals: 'Pedals',
  pedal: (letter: string) => `${letter} pedal`,
  picture: (names: string) => `The strings of an octave and the C above, by pitch: ${names}`,
  strings: 'The strings in a picture',
  doubled: (pairs: readonly string[]) =>
    pairs.length === 0 ? 'No two strings sound the same pitch.' : `Same pitch: ${pairs.join(', ')}.`,
  outOfOrder: 'A string sounds lower than the string below it.',
  origin: (bar: string | null) =>
    bar === null ? 'Moves are counted from this setting' : `Where the pedals stand at bar ${bar}`,
  back: 'Back to that setting',
  startHere: 'Count moves from here',
  takeBar: (bar: string) => `Take the setting of bar ${bar}`,
  way: {
    none: 'No pedal moves.',
    length: (moves: number, seconds: number) => `${nameMovesInTime(moves, seconds)}: `,
    move: (change: string, foot: Foot) => `${change} (${FOOT[foot]})`,
    why: 'No way is shorter: a foot makes one move at a time.',
  },
  sounds: {
    whole: 'All strings together',
    noName: 'All seven strings together have no name.',
    chords: (count: number) => nameCount(count, 'chord'),
    scales: (count: number) => `${nameCount(count, 'scale')} of fewer strings`,
    strings: 'Strings',
    name: 'Sound',
  },
  search: {
    heading: 'Find a sound',
    label: 'Chord, scale or notes',
    example: 'Eb dominant ninth',
    ask: 'Find settings',
    unknown: (text: string) =>
      `“${text}” is not a chord, a scale or a list of notes that is known. Try “Eb9”, “C whole tone”, “dim 7” or “C Eb Gb A”.`,
    understood: (sounds: readonly WantedSound[]) =>
      sounds.length === 1
        ? `Notes: ${sounds[0]!.notes.join(' ')}.`
        : 'No root is named: every root is tried.',
    forSound: (sound: string, how: string) => `${sound}: ${how}`,
    whole: (count: number) => `${nameCount(count, 'setting gives', 'settings give')} exactly this sound`,
    holding: (count: number) => `${nameCount(count, 'setting has', 'settings have')} it among other strings`,
    nearest: 'No setting has all of it; nearest',
    about: (moves: number, seconds: number) => {
      if (moves === 0) return 'as the pedals stand';
      return seconds === 0
        ? nameMovesInTime(moves, seconds)
        : `${nameCount(moves, 'move')}, ${nameSeconds(seconds)}`;
    },
    more: (count: number) => `and ${count} more`,
  },
  neighbours: {
    heading: 'One move away',
    columns: ['Move', 'Foot', 'Adds', 'Takes', 'Same pitch', 'New'],
    foot: (foot: Foot) => foot,
    more: (names: readonly string[]) =>
      names.length > 2 ? `${names.slice(0, 2).join(', ')} and ${names.length - 2} more` : names.join(', '),
  },
} as const;
