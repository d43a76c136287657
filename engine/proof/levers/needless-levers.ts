import { isMadeAt, numberPasses } from '../../score/bars/one-time.ts';
import { readOnlyAt } from '../../score/model/markings.ts';
import { listContradictions, listRedundantMarkings, type RedundantMarking } from '../marking-faults.ts';
import type { StatedLevers } from './stated-levers.ts';
import type { StringPart } from './string-parts.ts';

/** Names of one string that do nothing, by the markings of its part. */
export const listNeedlessLevers = (part: StringPart, stated: StatedLevers): readonly RedundantMarking[] =>
  listRedundantStatements(part).filter(({ marking }) => isOfOneName(part.step, marking, stated));

/** What is said of a string for nothing, whatever else its name tells of. */
export const listRedundantStatements = (
  part: Pick<StringPart, 'string' | 'score' | 'played'>,
): readonly RedundantMarking[] => {
  const { letter } = part.string;
  const disputed = new Set(
    listContradictions(part.score, [letter]).flatMap(({ first, second }) => [first, second]),
  );
  return listRedundantMarkings(part.score, part.played, [letter]).filter(
    ({ marking, why }) =>
      marking > 0 && !disputed.has(marking) && (why !== 'unasked' || !bringsBack(part, marking)),
  );
};

/** What is said of several strings in one word is needless only if it is so for all: such a word is let be. */
const isOfOneName = (step: number, marking: number, { said }: StatedLevers): boolean => {
  const own = said[marking - 1]!;
  const name = own.get(step)?.name;
  return name != null && [...own.values()].filter((each) => each.name === name).length === 1;
};

/**
 * Whether it brings a lever back: so that another marking has something to do on every pass, or to where it stood there
 * on another pass, which makes what is printed true on each.
 */
export const bringsBack = (
  { score, string }: Pick<StringPart, 'score' | 'string'>,
  marking: number,
): boolean => {
  const byBar = new Map<number, number[]>();
  for (const [index, { bar, positions }] of score.markings.entries())
    if (positions[string.letter] !== undefined) byBar.set(bar, [...(byBar.get(bar) ?? []), index]);
  const met = numberPasses(score.playOrder.flatMap((bar) => byBar.get(bar) ?? []));
  const follow = (left: number | null) => {
    let stands: number | undefined;
    let idle = 0;
    let own = 0;
    let ownIdle = 0;
    for (const { item: index, pass } of met) {
      const { positions } = score.markings[index]!;
      if (index === left || !isMadeAt(readOnlyAt(score.markings[index]!), pass)) continue;
      const position = positions[string.letter];
      if (index === marking) {
        own += 1;
        if (position === stands) ownIdle += 1;
      } else if (position === stands) idle += 1;
      stands = position;
    }
    return { idle, isIdleAtTimes: ownIdle > 0 && ownIdle < own };
  };
  const printed = follow(null);
  return printed.isIdleAtTimes || follow(marking).idle > printed.idle;
};
