import { barsOfRest, type Score, type XmlElement } from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { GREY } from './others-signs.ts';

const DYNAMICS = ['dynam', 'hairpin'] as const;

/**
 * Edits that make grey the dynamics of bars in which only others play. The last before the player's own notes stays black:
 * it holds for them too.
 */
export const otherDynamicEdits = (
  score: Score,
  { text, staves, measureOf }: LayoutMei,
  others: ReadonlySet<string>,
): readonly Edit[] => {
  if (others.size === 0) return [];
  const rests = barsOfRest(score);
  const signs = score.bars.flatMap((bar) =>
    (measureOf(bar)?.children ?? [])
      .filter((sign) => isDynamic(sign) && staves.includes(sign.attributes.staff ?? ''))
      .map((sign) => ({ sign, bar: bar.index, until: bar.index + barsLater(sign) })),
  );
  return signs
    .filter(({ bar, until }, i) => {
      const next = signs[i + 1]?.bar ?? score.bars.length;
      const isOwn = Array.from({ length: Math.max(until, next - 1) - bar + 1 }, (_, k) => bar + k).some(
        (each) => !rests.has(each),
      );
      return !isOwn;
    })
    .map(({ sign }) => setAttribute(text, sign.span.start, 'color', GREY));
};

const isDynamic = ({ name }: XmlElement): boolean => (DYNAMICS as readonly string[]).includes(name);

/** How many bars later a hairpin ends, as `tstamp2` has it: `1m+2.5`. */
const barsLater = ({ attributes: { tstamp2 = '' } }: XmlElement): number =>
  Number(/^(\d+)m/.exec(tstamp2)?.[1] ?? 0);
