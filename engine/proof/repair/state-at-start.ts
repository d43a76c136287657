import { POSITIONS } from '../../harp/setting.ts';
import { editsIn } from '../letter/letter-edits.ts';
import { isInside, type MarkingWindow } from '../letter/letter-track.ts';
import type { LetterRepair } from '../letter/repair-letter.ts';
import type { FixPlace } from '../model.ts';
import { type PartDraft, takeEdits, tryGiven } from './part-draft.ts';

/**
 * Where a setting is missing at the start, lets it say the other pedals too that are not stated before their notes: it
 * is one marking, though the music may come to those notes on other ways as well.
 */
export const stateAtStart = (draft: PartDraft, start: FixPlace): PartDraft => {
  const isAtStart = ({ edits }: LetterRepair): boolean =>
    edits.some((edit) => edit.kind === 'add' && isInside(edit.window, start.at));
  if (![...draft.repairs.values()].some(isAtStart)) return draft;
  const window: MarkingWindow = { after: null, closed: true, until: start.at, bar: start.bar };
  let stated = draft;
  for (const [letter, repair] of draft.repairs) {
    if (isAtStart(repair) || editsIn(repair.cost) === 0) continue;
    for (const position of POSITIONS) {
      const also = [{ bar: start.bar, at: start.at, position, inWords: false }];
      const granted = tryGiven(stated, letter, { also });
      const { repair: rest } = granted;
      if (rest.unmet > repair.unmet || editsIn(rest.cost) >= editsIn(repair.cost)) continue;
      stated = takeEdits(stated, [{ kind: 'add', letter, position, window }], [granted]);
      break;
    }
  }
  return stated;
};
