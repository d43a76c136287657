import { add, type Rational, rational } from '../engine/music/rational.ts';
import type { SourceMarking } from '../engine/score/model/markings.ts';
import type { Score } from '../engine/score/model/score.ts';
import { readPedalWords } from '../engine/score/words/pedal-words.ts';
import { type SmallPart, smallPart } from './part-builder.ts';

export const NATURALS = 'D♮ C♮ B♮ E♮ F♮ G♮ A♮';

/** A part in 4/4 with markings: `[bar from 1, beat from 1, words]`; words such as `préparez E♭` are for ahead of need. */
export const markedPart = (
  part: SmallPart,
  ...markings: readonly (readonly [bar: number, beat: number, words: string])[]
): Score => {
  const score = smallPart(part);
  return {
    ...score,
    markings: markings.map(([bar, beat, text], i): SourceMarking => {
      const words = readPedalWords(text);
      if (words === null) throw new Error(`no pedals: ${text}`);
      const at: Rational = add(score.bars[bar - 1]!.onset, rational((beat - 1) * 8, 8));
      return { at, bar: bar - 1, span: { start: i, end: i }, form: 'words', ...words, text };
    }),
  };
};
