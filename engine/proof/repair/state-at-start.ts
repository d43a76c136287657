import { POSITIONS } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import type { FixPlace } from '../model.ts';
import { isInside, type LetterTrack, type MarkingWindow } from './letter-track.ts';
import type { BarPasses } from './passes.ts';
import { editsIn, type LetterRepair, REPAIR_PRICES, repairLetter } from './repair-letter.ts';

/**
 * Where a setting is missing at the start, lets it say the other pedals too that are not stated before their notes: it
 * is one marking, though the music may come to those notes on other ways as well.
 */
export const stateAtStart = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  passes: readonly BarPasses[],
  base: ReadonlyMap<Letter, LetterRepair>,
  start: FixPlace,
): ReadonlyMap<Letter, LetterRepair> => {
  const isAtStart = ({ edits }: LetterRepair): boolean =>
    edits.some((edit) => edit.kind === 'add' && isInside(edit.window, start.at));
  if (![...base.values()].some(isAtStart)) return base;
  const window: MarkingWindow = { after: null, closed: true, until: start.at, bar: start.bar };
  const repairs = new Map(base);
  for (const [letter, repair] of base) {
    const step = tracks.get(letter)!.bars.find((steps) => steps.length > 0)?.[0];
    if (step === undefined || isAtStart(repair) || editsIn(repair.cost) === 0) continue;
    for (const position of POSITIONS) {
      const also = [{ step, position, inWords: false }];
      const rest = repairLetter(tracks.get(letter)!, passes, { without: [], also });
      if (rest.unmet > repair.unmet || editsIn(rest.cost) >= editsIn(repair.cost)) continue;
      const edits = [...rest.edits, { kind: 'add' as const, letter, position, window }];
      repairs.set(letter, { ...rest, edits, cost: rest.cost + REPAIR_PRICES.edit });
      break;
    }
  }
  return repairs;
};
