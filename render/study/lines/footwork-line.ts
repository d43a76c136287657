import {
  FEET,
  LETTERS,
  type Move,
  type Plan,
  POSITIONS,
  type Score,
  type Setting,
} from '../../../engine/index.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import type { Block } from '../../sheets/block.ts';
import { nameChange } from '../../sheets/note-words.ts';
import type { Sheet } from '../../sheets/sheet.ts';
import { type BarRange, drawCountedLine, type Lanes } from './counted-line.ts';
import { LANES, type LaneSizes, lanesEm, middleOfLane } from './placed-line.ts';

const SIZES: LaneSizes = { laneEm: 1.25, feetGapEm: 0.8 };

const settingAfter = (initial: Setting, moves: readonly Move[]): Setting => ({
  ...initial,
  ...Object.fromEntries(moves.map(({ letter, to }) => [letter, to])),
});

/** A lane for each pedal; before it, as it stands. */
const pedalLanes = ({ initial }: Plan, naming: NoteNaming): Lanes<Move> => {
  const names = LETTERS.flatMap((letter) =>
    POSITIONS.map((position) => nameChange(letter, position, naming)),
  );
  return {
    middlesEm: LANES.map((letter) => middleOfLane(letter, SIZES)),
    restEm: FEET.left.length * SIZES.laneEm + SIZES.feetGapEm / 2,
    heightEm: lanesEm(SIZES),
    laneOf: ({ letter }) => LANES.indexOf(letter),
    nameOf: ({ letter, to }) => nameChange(letter, to, naming),
    labelsAfter: (before) => {
      const setting = settingAfter(initial, before);
      return LANES.map((letter) => nameChange(letter, setting[letter], naming));
    },
    allNames: names,
    allLabels: names,
  };
};

/** The feet alone in rhythm: a line for each pedal, counts under them, and bars in which nothing moves as rests. */
export const drawFootwork = (
  score: Score,
  plan: Plan,
  naming: NoteNaming,
  sheet: Sheet,
  bars?: BarRange,
): readonly Block[] => drawCountedLine(score, plan.moves, pedalLanes(plan, naming), sheet, bars);
