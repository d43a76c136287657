import { describeStringRetuning, listNames, nameCount } from '../../../engine/index.ts';

export const PIECES_WORDS = {
  card: {
    moves: 'Pedal moves',
    changes: 'Lever changes',
    none: 'none',
    perMinute: (count: number, perMinute: number) =>
      `${count} in print; on average ${perMinute.toFixed(1)} a minute with all repeats`,
    /** @param length as a clock tells it */
    lasts: (length: string, bars: number) =>
      `${length} with all repeats and rests, ${nameCount(bars, 'bar')}`,
    /** Where no figure is printed at the start; small, since it stands in brackets too. */
    tempo: {
      assumed: (tempo: string) => `no tempo is given at the start; ${tempo} is assumed`,
      sound: (tempo: string) =>
        `no metronome mark is given at the start; ${tempo} is the file’s playback tempo`,
    },
    tune: 'To tune',
    tuning: 'Tuning',
  },
  tuning: {
    /** Over the first line of music. */
    onMusic: {
      withoutPedal: 'Tune before playing, without pedal:',
      byCents: 'Tune before playing:',
      to: (string: string) => `${string} to`,
    },
    withoutDisc: (from: string, to: string) => `${from} to ${to}: this string has no disc.`,
    retunedLetter: (from: string, to: string, way: 'up' | 'down') => `All ${from} strings ${way} to ${to}.`,
    retunedStrings: (from: string, octaves: readonly string[], to: string, way: 'up' | 'down') =>
      octaves.length === 1
        ? `The ${from} string of octave ${octaves[0]} ${way} to ${to}.`
        : `The ${from} strings of octaves ${listNames(octaves)} ${way} to ${to}.`,
    /** A string that the user tunes otherwise. */
    retuned: (string: string, cents: number) => `${describeStringRetuning(string, cents)}`,
    nothing: 'Nothing beyond the usual tuning.',
    // Common practice, no source.
    caution:
      'Whether a string bears a higher pitch than its usual one is for a harp technician to say: ask first.',
  },
  set: {
    title: 'Class set',
    contents: 'Contents',
    difficulty: 'Difficulty',
    difficultyLegend: (ownScale: string) =>
      `The easiest first. Changes and a minute are counted as printed, each bar once, a minute only while the harp plays; the length has all repeats. ${ownScale}`,
    heads: {
      page: 'Page',
      grade: 'Difficulty',
      changes: 'Changes',
      perMinute: 'A minute',
      length: 'Length',
      piece: 'Piece',
    },
    unplayable: (title: string) => `${title} (not playable as printed)`,
    /** How the harp is set before each piece of a set, after the piece before it. */
    settings: 'From piece to piece',
    settingsLegend:
      'What each piece needs before it begins, and what of that is to be set after the one before it. Strings that a piece does not play stay as they are.',
    toSet: (names: string) => `To set after the piece before: ${names}.`,
    setAhead: (names: string) => `For later pieces, to set now as well: ${names}.`,
    nothingToSet: 'Nothing to set after the piece before.',
    retune: 'To retune, with the levers of these strings down',
    otherHarp: 'On another harp than the piece before.',
    refused: 'Not in this set',
    /** Why a piece is not in a set. */
    refusals: {
      unreadable: 'The file cannot be read as a score.',
      unsupported: 'It holds something that is not supported.',
      noHarp: 'It has no part named for the harp; choose the part.',
      noMusic: 'The part has no notes.',
      noSuchTune: 'There is no such tune in the book.',
      tooLarge: 'It is too large.',
      tooSlow: 'It took too long.',
      notDrawn: 'It could not be drawn.',
    },
  },
} as const;
