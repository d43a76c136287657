import { nameCount, openWithCount, type Side } from '../../../engine/index.ts';

export const LEVERS_WORDS = {
  harp: (strings: number) => `Lever harp, ${strings} strings`,
  start: {
    tuning: (key: string) => `Tuning ${key}.`,
    allDown: 'All levers down.',
    up: (names: readonly string[]) => `Levers up: ${names.join(', ')}.`,
    down: (names: readonly string[]) => `Levers down: ${names.join(', ')}.`,
    allOf: (name: string) => `all ${name}`,
  },
  /** Beside the table over the first line of music. */
  onMusic: { tuning: 'Tuning', up: 'Levers up', allDown: 'All levers down', all: 'all' },
  strings: 'Levers before the start',
  stringsLegend:
    'The strings from the lowest. A black lever across a string is up, a grey one beside it down. Over a raised string stands what it gives, under each what it is tuned to.',
  tuningSheet: 'Tuning sheet',
  tuningHeads: {
    string: 'String',
    custom: 'By custom',
    tuneTo: 'Tune to',
    change: 'Change',
    up: 'Levers up',
    gives: 'With the lever',
    fixed: 'Without a lever',
  },
  tuningLegend: (tuning: string, harp: string) =>
    `${harp}. Tune all strings with the levers down: ${tuning}. Then set the levers.`,
  upForRepeat: (string: string) =>
    `The lever of ${string} is up before the start because of the repeat, which leaves it so: no note needs it before it is set down.`,
  retuned: (semitones: number) =>
    `${nameCount(Math.abs(semitones), 'semitone')} ${semitones > 0 ? 'up' : 'down'}`,
  all: 'all',
  octaves: (octaves: readonly number[]) =>
    `${octaves.length === 1 ? 'octave' : 'octaves'} ${octaves.join(', ')}`,
  changes: 'Lever changes',
  noChanges: 'No lever changes in this part: there are no changes to drill.',
  changeCount: (changes: number, perMinute: number) =>
    `${openWithCount(changes, 'change')}, ${perMinute.toFixed(1)} a minute while the harp plays.`,
  noBusyBars: 'No bar has more than one change.',
  busyBar: (bar: string, count: number, changes: string) => `Bar ${bar}: ${count} changes (${changes})`,
  passageChanges: 'Changes',
  line: 'Levers alone',
  lineLegend:
    'The levers without the strings: count aloud, and let the hand that is named set the lever on its count and go back. The name is what the string then gives. A fraction is the part of the beat that has passed (where none stands, move between the counts), and a number over a thick line so many bars without a lever. Rest your hands before you begin again.',
  table: 'Table of changes',
  tableHeads: {
    bar: 'Bar',
    beat: 'Count',
    hand: 'Hand',
    lever: 'Lever',
    to: 'To',
    gives: 'Gives',
    lead: 'Lead',
    why: 'Why there',
  },
  tableLegend:
    'Lead is the time from the change to the first note that needs it, at full tempo, if the part is read straight on.',
  positions: { up: 'up', down: 'down' },
  hands: { left: 'left', right: 'right' },
  /** Short, as hands are named in the music. */
  handLabels: { left: 'l.h.', right: 'r.h.' },
  handFree: (hand: Side, leaves: string | null, returns: string | null) =>
    leaves === null && returns === null
      ? `the ${hand} hand is free throughout`
      : `the ${hand} hand is free ${[
          ...(leaves === null ? [] : [`after ${leaves}`]),
          ...(returns === null ? [] : [`until ${returns}`]),
        ].join(' ')}`,
  noteAt: (note: string, bar: string) => `${note} in bar ${bar}`,
  /** @param levers which are up, in a sentence */
  atSpot: (levers: string) => `When it begins: ${levers}`,
  spotsLegend:
    'The passages that are not easy: first those that cannot be played, then the hardest, by grade and then by the most changes in ten seconds. Practise them from the last to the first, and rest your hands between two exercises. Pale bars are not of the passage.',
  restBetween: 'Between two exercises rest your hands; stop at once if anything hurts.',
  leversAlone:
    'The levers alone: the line above, counting aloud, without the strings; each hand comes back to its place over the strings.',
  aroundEach:
    'Only what stands round each change, as slowly as you like: the last note before it, the change, and the first note after it, until the hands find all three without a look.',
  handsAlone: 'The notes alone, the levers left where the passage begins: some notes sound otherwise.',
  slowly: (beat: string, tempo: number) =>
    `Notes and levers together, slowly: at ${beat} = ${tempo} each hand has at least a second between its levers.`,
  inTempo: (beat: string, tempo: number) =>
    `Notes and levers together: even at full tempo, ${beat} = ${tempo}, each hand has a second between its levers.`,
} as const;
