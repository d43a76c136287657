import { OWN_SCALE, openWithCount } from '../../engine/index.ts';
/** What the sheets of a study edition say beside what the plan says itself. */
export const STUDY_WORDS = {
  edition: 'study edition',
  contents: 'Contents',
  opening: 'Opening setting',
  tune: 'To tune beforehand',
  difficulty: (grade: string) => `Difficulty: ${grade}`,
  ownScale: OWN_SCALE,
  moves: 'Moves',
  noMoves: 'No pedal moves in this part.',
  moveCount: (moves: number, perMinute: number) =>
    `${openWithCount(moves, 'move')}, ${perMinute.toFixed(1)} a minute while the harp plays.`,
  busiest: 'Busiest bars',
  noBusyBars: 'No bar has more than one move.',
  busyBar: (bar: string, count: number, changes: string) => `Bar ${bar}: ${count} moves (${changes})`,
  passages: 'Difficulty by passage',
  passageHeads: ['Bars', 'Difficulty', 'Moves', 'A minute', 'Why'],
  part: 'The part',
  chart: 'Pedal chart',
  chartLegend:
    'One lane for each pedal: the left foot’s three above, the right foot’s four below. A line at the top of its lane is a flat, in the middle a natural, at the bottom a sharp, as the pedals stand. Each move bears the name that the pedal then gives; each line begins with the setting in force.',
  table: 'Table of moves',
  tableHeads: ['Bar', 'Beat', 'Foot', 'Pedal', 'From', 'To', 'Lead', 'Why there'],
  tableLegend:
    'Lead is the time from the move to the first note that needs it, at the written tempo, if the part is read straight on.',
  footwork: 'Footwork line',
  footworkLegend:
    'The feet alone, away from the strings: count aloud and move each pedal on its count. A fraction is the part of the beat that has passed, and a number over a thick line a rest of so many bars. Give your feet a rest before you begin again.',
  spots: 'Hard spots',
  spotsLegend:
    'The passages that are not easy, the hardest first. Practise them from the last to the first, and rest hands and feet between two exercises.',
  noSpots: 'Every passage is easy.',
  spot: (rank: number, bars: string, grade: string) => `${rank}. ${bars}: ${grade}`,
  exercises: 'Exercises',
  feetAlone: 'The feet alone: the footwork above, counting aloud, without the strings.',
  handsAlone: 'The hands alone, the pedals left where the passage begins: some notes sound otherwise.',
  slowly: (tempo: number, slower: boolean) =>
    slower
      ? `Hands and feet together, slowly: at ♩ = ${tempo} each foot has a second between its moves.`
      : `Hands and feet together at the written tempo, ♩ = ${tempo}: each foot has a second between its moves.`,
  ladder: (tempi: readonly number[]) =>
    tempi.length === 1
      ? `Three times without a fault at ♩ = ${tempi[0]}.`
      : `Up the ladder, three times without a fault at each step: ♩ = ${tempi.join(', ')}.`,
  findings: 'Findings',
  noFindings: 'No problems found: the part is playable as printed.',
  blank: 'This page is left blank so that pages turn where they should.',
  seconds: (seconds: number) => `${seconds.toFixed(1)} s`,
  noLead: '–',
  whyAfter: (note: string, bar: string) => `after ${note} in bar ${bar}`,
  whyFromStart: 'any time from the start',
  whyBefore: (note: string, bar: string, beat: string) => `before ${note} in bar ${bar}, beat ${beat}`,
  whyAfterJump: 'the next note that needs it comes after a jump',
  whyRestores: 'it brings the pedal back for the repeat',
  whyBeforeGrace: 'before the grace note',
  whyAgainst: (drawbacks: readonly string[]) => `Against it: ${drawbacks.join('; ')}`,
} as const;

export const FOOT_WORDS = { left: 'left', right: 'right' } as const;

export const FOOT_HEADS = { left: 'Left foot', right: 'Right foot' } as const;
