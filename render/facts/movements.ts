import { pausesBefore, type Score, writeNumeral } from '../../engine/index.ts';
import type { Words } from '../words/worded.ts';

/** A movement of a piece that has several. */
export interface Movement {
  /** The bar (index) it begins with. */
  readonly bar: number;
  /** Begins with the number by which its bars are named, as far as its title has none. */
  readonly name: string;
  /** Feet and hands have all the time before it, the first included: it is set for as a piece of its own. */
  readonly isSetFor: boolean;
}

/** The movements of a piece; none where it is one piece. */
export const listMovements = (score: Score, { study }: Words): readonly Movement[] => {
  if (score.movements.length === 0) return [];
  const pauses = pausesBefore(score);
  return [0, ...score.movements].map((bar, i) => {
    const title = score.texts.find((text) => text.kind === 'movement' && text.bar === bar)?.text.trim() ?? '';
    const numeral = writeNumeral(i + 1);
    const named = NUMBERED.test(title) ? title : `${numeral}. ${title}`;
    return {
      bar,
      name: title === '' ? study.movement(numeral) : named,
      isSetFor: i === 0 || pauses.has(bar),
    };
  });
};

/** A title that has the number of its movement. */
const NUMBERED = /^(?:\p{L}+\.? )?(?:\d+|[IVXLC]+)\b/u;
