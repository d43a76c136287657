import { LETTERS, type LeverMove, type LeverPlan, type Score } from '../../../engine/index.ts';
import { type NoteNaming, printedAlter } from '../../markings/note-names.ts';
import type { Block } from '../../sheets/block.ts';
import { nameChange } from '../../sheets/note-words.ts';
import type { Sheet } from '../../sheets/sheet.ts';
import { wordsOf } from '../../words/words.ts';
import { type BarRange, drawCountedLine, type Lanes } from './counted-line.ts';

/** The right hand above the left, as on the staves. */
const HANDS = ['right', 'left'] as const;

const LANE_EM = 1.7;

/** What a string gives, as a change is written: `F♯4`. */
export const nameLeverChange = (
  { string, alter }: Pick<LeverMove, 'string' | 'alter'>,
  naming: NoteNaming,
): string => `${nameChange(string.letter, printedAlter(alter), naming)}${string.octave}`;

const handLanes = (
  moves: readonly LeverMove[],
  naming: NoteNaming,
  labels: Readonly<Record<(typeof HANDS)[number], string>>,
): Lanes<LeverMove> => ({
  middlesEm: HANDS.map((_, lane) => (lane + 0.5) * LANE_EM),
  restEm: LANE_EM,
  heightEm: HANDS.length * LANE_EM,
  laneOf: ({ hand }) => HANDS.indexOf(hand),
  nameOf: (move) => nameLeverChange(move, naming),
  labelsAfter: () => HANDS.map((hand) => labels[hand]),
  // Of the widest letters too, so that passages of one part are alike.
  allNames: [
    ...moves.map((move) => nameLeverChange(move, naming)),
    ...LETTERS.map((letter) => nameLeverChange({ string: { letter, octave: 4 }, alter: 1 }, naming)),
  ],
  allLabels: Object.values(labels),
});

/** The levers alone in rhythm: a line for each hand, what it sets, counts, and bars in which nothing changes as rests. */
export const drawHandLine = (
  score: Score,
  { moves }: LeverPlan,
  naming: NoteNaming,
  sheet: Sheet,
  bars?: BarRange,
): readonly Block[] =>
  drawCountedLine(score, moves, handLanes(moves, naming, wordsOf(sheet).levers.handLabels), sheet, bars);
