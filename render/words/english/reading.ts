export const READING_WORDS = {
  title: 'How the markings are read',
  /** Where a set has pieces for both harps. */
  titleOf: { pedal: 'How pedal markings are read', lever: 'How lever markings are read' },
  onThePages: 'On the pages of music',
  setting: 'A diagram shows how all pedals stand from there on.',
  change: {
    foot: 'A letter with its sign is a change: there the foot moves this pedal, ahead of the note that needs it.',
    note: 'A letter with its sign is a change: the pedal has to stand so when this note comes.',
  },
  feet: 'Where both feet move, the right foot is above, the left foot below.',
  ring: 'A ring is round a pedal that stands elsewhere than in the last diagram, or moves here.',
  wedge: 'A wedge before a change means: exactly with the note.',
  strings: 'After “=” stands the string on which a note is played that is written otherwise.',
  counts: 'The grey figures over the music are the counts; bar numbers are black and slanted.',
  movements: 'A Roman numeral before a bar number tells the movement: II 12 is bar 12 of the second.',
  numbers:
    'A white number on black marks a place that is not playable as printed; after the music the same number says why.',
  colours: {
    'c-red-f-black': 'Notes on C strings are red, as the strings are.',
    'c-red-f-blue':
      'Notes on C strings are red and those on F strings blue, so that the strings are found at once.',
  },
  leverTable:
    'The table of the levers has a column for each letter and a row for each octave. A triangle is a lever that is up, a dash one that is down.',
  leverChange: {
    names:
      'A name with a number is a change: there a hand sets the lever of this string, which then gives this note.',
    notes:
      'A small note is a change: there a hand sets the lever of this string, which then gives this note.',
  },
  leverHands: 'Under the name stands the hand that does it: l.h. is the left, r.h. the right.',
} as const;
