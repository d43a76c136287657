import type { Cause, HarpKind } from '../../engine/index.ts';
import type { Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';

/** Why a passage or a part is as hard as it is, as a sentence in the language of the sheet. */
export const tellCause = (cause: Cause, harp: HarpKind, sheet: Pick<Sheet, 'language'>): string => {
  const { difficulty, places, labelled, afterLabel } = wordsOf(sheet);
  switch (cause.kind) {
    case 'easy':
      return difficulty.easy(cause.measures, harp);
    case 'unplayable':
      return difficulty.unplayable(cause.failing);
    case 'share':
      return difficulty.share(cause.passages, cause.of, cause.grade);
    case 'measure': {
      const sentence = difficulty.reasons[cause.name](cause.measures, harp);
      return cause.bars === null
        ? sentence
        : labelled(places.bars(cause.bars.from, cause.bars.until), afterLabel(sentence));
    }
  }
};
