/** What the handout about pedals and discs says. Common practice, no source, where the engine does not know it. */
export const PEDAL_HANDOUT_WORDS = {
  title: 'How pedals and discs work',
  legend:
    'Seven pedals, one for each letter. A pedal governs all strings of its letter at once, in every octave, over rods in the column and two discs at each string.',
  positions: 'Three positions',
  positionsLegend:
    'Each disc that holds the string makes it sound a semitone higher: the thick part of the string is what sounds. All other pedals work alike. No pedal gives a double sharp or a double flat: such a note is played on a neighbouring string.',
  gives: (name: string) => `gives ${name}`,
  notch: {
    [-1]: 'top notch, no disc holds',
    0: 'middle notch, the upper disc holds',
    1: 'bottom notch, both discs hold',
  },
  feet: 'Two feet',
  foot: {
    left: (letters: string) => `The left foot has the pedals ${letters}, from the outside inwards.`,
    right: (letters: string) => `The right foot has the pedals ${letters}, from the inside outwards.`,
  },
  feetLegend: (letter: string) =>
    `Seen from the player’s seat, here set for ${letter} major. A foot moves one pedal at a time, best while the strings of that letter are silent: one that sounds buzzes or bends.`,
  diagram: 'How a diagram is read',
  diagramLegend: (setting: string) =>
    `The same setting as it is printed: one stroke for each pedal in their order, left foot and right foot parted by the upright line. Above the line is flat, across it natural, below it sharp: ${setting}.`,
  fixed: 'Strings without discs',
  fixedHeads: ['Strings', 'Range', 'Without discs', 'Harp'],
  fixedLegend:
    'No pedal moves these strings. They are tuned by hand before the piece to what it needs, and keep that pitch throughout. Do not raise a string above its usual pitch unless a harp technician agrees.',
  none: 'none',
} as const;
