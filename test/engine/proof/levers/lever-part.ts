import { add, rational } from '../../../../engine/music/rational.ts';
import type { LeverMarking } from '../../../../engine/score/model/markings.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { readLeverLines } from '../../../../engine/score/words/lever-lines.ts';
import { readLeverWords } from '../../../../engine/score/words/lever-words.ts';
import { type SmallPart, smallPart } from '../../../part-builder.ts';

/** A small part with words about levers: bar from 1, quarter from 1, text. */
export const leverPart = (
  part: SmallPart,
  ...words: readonly (readonly [bar: number, quarter: number, text: string])[]
): Score => {
  const score = smallPart(part);
  const read = words.map(([bar, quarter, text]) => leverText(score, bar, quarter, text));
  return { ...score, leverWords: readLeverLines(read, null) };
};

const leverText = (score: Score, bar: number, quarter: number, text: string): LeverMarking => ({
  at: add(score.bars[bar - 1]!.onset, rational(quarter - 1)),
  bar: bar - 1,
  span: { start: 0, end: 0 },
  text,
  form: 'words',
  says: readLeverWords(text),
});
