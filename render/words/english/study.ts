import { listNames, nameOrdinal, OWN_SCALE, openWithCount } from '../../../engine/index.ts';

export const STUDY_WORDS = {
  edition: 'study edition',
  contents: 'Contents',
  opening: 'Opening setting',
  /** One that has no title. */
  movement: (numeral: string) => `Movement ${numeral}`,
  tune: 'To tune beforehand',
  difficulty: (grade: string) => `Difficulty: ${grade}`,
  ownScale: OWN_SCALE as string,
  moves: 'Moves',
  noMoves: 'No pedal moves in this part: there are no moves to drill.',
  moveCount: (moves: number, perMinute: number) =>
    `${openWithCount(moves, 'move')}, ${perMinute.toFixed(1)} a minute while the harp plays.`,
  /** Where the part has chord symbols. */
  chordSymbols:
    'Chord symbols are printed, but not reckoned with: all that is set here serves the written notes. If you play chords from the symbols, set their notes too.',
  busiest: 'Busiest bars',
  /** @param bars their numbers, beside those that are told with their moves */
  asBusy: (bars: readonly string[]) => `As many in bar${bars.length === 1 ? '' : 's'} ${listNames(bars)}.`,
  noBusyBars: 'No bar has more than one move.',
  busyBar: (bar: string, count: number, changes: string) => `Bar ${bar}: ${count} moves (${changes})`,
  passages: 'Difficulty by passage',
  passageHeads: { bars: 'Bars', grade: 'Difficulty', moves: 'Moves', perMinute: 'A minute', why: 'Why' },
  part: 'The part',
  chart: 'Pedal chart',
  chartLegend:
    'One lane for each pedal: the left foot’s three above, the right foot’s four below. A line at the top of its lane is a flat, in the middle a natural, at the bottom a sharp, as the pedals stand. Each move bears the name that the pedal then gives; each line begins with the setting in force. Several bars without a move are told as one: a thick line is a rest, dots are music.',
  table: 'Table of moves',
  tableHeads: {
    bar: 'Bar',
    beat: 'Count',
    foot: 'Foot',
    pedal: 'Pedal',
    from: 'From',
    to: 'To',
    lead: 'Lead',
    why: 'Why there',
  },
  tableLegend:
    'Lead is the time from the move to the first note that needs it, at full tempo, if the part is read straight on.',
  /** @param middleC its name with the number of its octave */
  octaves: (middleC: string) => `${middleC} is middle C.`,
  /** @param note that no tempo is printed, and what stands for one */
  fullTempo: (note: string) => `${note}. That is the full tempo of these sheets.`,
  footwork: 'Footwork line',
  pauseLegend: 'What stands before the first count of a movement is set between the two movements.',
  footworkLegend:
    'The feet alone, away from the strings: count aloud and move each pedal on its count. A fraction is the part of the beat that has passed (where none stands, move between the counts), and a number over a thick line so many bars in which the feet rest. Give your feet a rest before you begin again.',
  /** @param metres each with the number of its counts: `6/8: 2` */
  counting: (metres: string) => `Counts are those that are counted aloud (in a bar of ${metres}).`,
  countingUpbeat: 'An upbeat has the last counts of its bar.',
  countingDivided: 'A bar that is printed in two parts is counted on in the second.',
  spots: 'Hard spots',
  spotsLegend:
    'The passages that are not easy: first those that cannot be played, then the hardest, by grade and then by the most moves in ten seconds. Practise them from the last to the first, and rest hands and feet between two exercises. Pale bars are not of the passage.',
  noSpots: 'Every passage is easy.',
  spot: (rank: number, bars: string, grade: string) => `${rank}. ${bars}: ${grade}`,
  exercises: 'Exercises',
  noExercises: 'None: as printed this passage cannot be played. Choose a remedy from the findings first.',
  /** @param names the numbers of bars that cannot be played */
  exceptBars: (names: string, count: number) =>
    count === 1
      ? `Bar ${names} cannot be played as printed: choose a remedy from the findings first, or practise without it.`
      : `Bars ${names} cannot be played as printed: choose a remedy from the findings first, or practise without them.`,
  feetAlone: 'The feet alone: the footwork above, counting aloud, without the strings.',
  /** Where the notes are hard, not the moves. */
  eachHand: 'Each hand by itself, as slowly as it needs, until it has every note.',
  handsAlone: 'The hands alone, the pedals left where the passage begins: some notes sound otherwise.',
  slowly: (beat: string, tempo: number) =>
    `Hands and feet together, slowly: at ${beat} = ${tempo} each foot has at least a second between its moves.`,
  inTempo: (beat: string, tempo: number) =>
    `Hands and feet together: even at full tempo, ${beat} = ${tempo}, each foot has a second between its moves.`,
  /** After the exercises of each passage. */
  restBetween: 'Between two exercises rest hands and feet; stop at once if anything hurts.',
  ladder: (beat: string, tempi: readonly number[]) =>
    tempi.length === 1
      ? `Three times without a fault at ${beat} = ${tempi[0]}.`
      : `Up the ladder, three times without a fault at each step: ${beat} = ${tempi.join(', ')}.`,
  findings: 'Findings',
  notes: 'Notes',
  seconds: (seconds: number) => `${seconds.toFixed(1)} s`,
  /** In place of the seconds that a move comes before its note, where there are none. */
  withNote: 'with the note',
  /** Where it may be made at any time before. */
  /** A part of a beat that has no simple fraction, such as the fifth note of a septuplet. */
  partOfBeat: (beat: number, part: number, parts: number) => `${beat}, ${nameOrdinal(part)} of ${parts}`,
  hardlyAny: 'under 0.1 s',
  rate: (perMinute: number) => perMinute.toFixed(1),
  whyAfter: (note: string, bar: string) => `after ${note} in bar ${bar}`,
  whyAfterChange: (bar: string) => `after the change in bar ${bar}`,
  /** Of a move that the first time would not need, had it begun otherwise. */
  whyAsRepeatLeaves: 'at the start the position is the one that the repeat leaves',
  whyFromStart: 'any time from the start',
  whyBefore: (note: string, bar: string, beat: string) => `before ${note} in bar ${bar}, count ${beat}`,
  whyAfterJump: 'the next note that needs it comes after a jump',
  whyRestores: 'it is set back for the repeat',
  /** Of a change that no note needs before the next of its pedal or lever. */
  whyForRepeated: 'so that what is repeated begins alike each time',
  whyInPause: 'between two movements',
  whyBeforeGrace: 'before the grace note',
  whyAgainst: (drawbacks: readonly string[]) => `Against it: ${drawbacks.join('; ')}`,
} as const;
