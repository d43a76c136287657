/** What the sheets of a class set say. */
export const PACK_WORDS = {
  title: 'Class set',
  contents: 'Contents',
  difficulty: 'Difficulty',
  difficultyLegend: (ownScale: string) =>
    `The easiest first. A minute counts only while the harp plays. ${ownScale}`,
  heads: ['Page', 'Difficulty', 'Changes', 'A minute', 'Length', 'Piece'],
  refused: 'Not in this set',
  blank: 'This page is left blank so that the next piece begins on a right-hand page.',
} as const;
