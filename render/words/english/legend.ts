export const LEGEND_WORDS = {
  pedalTitle: 'How to read the pedal markings',
  leverTitle: 'How to read the lever markings',
  /** @param left the pedals of each foot by their names, as they stand in a setting */
  setting: {
    diagram: (left: string, right: string) =>
      `All pedals in their order, left foot ${left}, right foot ${right}: above the line flat, on it natural, below it sharp.`,
    letters: (left: string, right: string) => `All pedals: left foot ${left}, right foot ${right}.`,
  },
  moved: 'Ringed: moves here.',
  changed: 'Ringed: stands elsewhere than in the last full setting, or moves here.',
  change: {
    foot: 'A change ends before the note that needs it, where the foot moves.',
    note: 'A change stands at the note that needs it: the foot moves before that note.',
  },
  rows: 'Of two rows the upper one is for the right foot.',
  cannotWait:
    'With “foot here”: the foot moves at this place and does not wait for the note, where it has no time.',
  withNote: 'With the wedge: move exactly with the note, because until then a string of this pedal sounds.',
  /** After the word for the time that a marking is for. */
  firstTime:
    'the setting is for the first time only; when the music comes back here, other pedals have moved.',
  onReturn: 'move only when the music comes back here; before that the pedal stands there already.',
  leverFirstTime:
    'the table is for the first time only; when the music comes back here, other levers have moved.',
  leverOnReturn: 'set it only when the music comes back here; before that the lever stands there already.',
  leverAtOneTime: 'set it that time only; at other times leave the lever as it is.',
  unplayable: 'A place that is not playable as printed; the list says why.',
  /** Over the footnotes of the file. */
  footnotes: 'Notes',
  /** At the foot of a page that is turned at ease. */
  timeToTurn: 'time',
} as const;
