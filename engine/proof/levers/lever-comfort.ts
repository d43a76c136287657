import { bisectLeft } from 'd3-array';
import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { LeverContext } from '../../levers/context.ts';
import { compare, type Rational, toNumber } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Need } from '../../sounding/needs.ts';
import type { PedalTask } from '../marking-playback.ts';
import { alterWith } from './lever-edits.ts';
import type { LeverFix } from './model.ts';
import type { StringPart } from './string-parts.ts';

/** A change that is right, is marked while its string sounds, and could wait until it does not. */
export interface LeverUnease {
  readonly part: StringPart;
  readonly task: PedalTask;
  readonly sounding: Need;
  readonly fix: LeverFix;
}

/** Changes that would bend a string, each once, where a hand is free after that. */
export const listUneasyLevers = (
  parts: readonly StringPart[],
  { score, moments, free }: LeverContext,
  tuning: OpenTuning,
): readonly LeverUnease[] => {
  const times = moments.all.map(({ at }) => toNumber(at));
  const freeBetween = (from: Rational, until: Rational) =>
    moments.all
      .slice(bisectLeft(times, toNumber(from)), bisectLeft(times, toNumber(until)))
      .find(({ grace }, i) => {
        const index = bisectLeft(times, toNumber(from)) + i;
        return grace === 0 && (free.left.isFree[index] === 1 || free.right.isFree[index] === 1);
      });
  return parts.flatMap((part) => {
    const seen = new Set<number>();
    return part.played.tasks.flatMap((task): LeverUnease[] => {
      const marking = part.score.markings[task.marking]!;
      const isTable = task.marking === 0 || score.leverWords[task.marking - 1]!.says!.isTable;
      // A name that tells of several strings stays where it is.
      if (isTable || seen.has(task.marking) || compare(task.before.onset, marking.at) < 0) return [];
      seen.add(task.marking);
      const sounding = part.needs.findLast(
        (need) => compare(need.onset, marking.at) < 0 && need.position !== task.to,
      );
      if (sounding === undefined || compare(sounding.release, marking.at) <= 0) return [];
      const easier = freeBetween(sounding.release, task.before.onset);
      if (easier === undefined) return [];
      const { bar, at } = easier;
      const place = { bar, at, beat: beatAt(score.bars[bar]!, at) };
      const alter = alterWith(tuning, part.string, task.to);
      const fix: LeverFix = {
        kind: 'move',
        beside: [],
        marking: task.marking - 1,
        string: part.string,
        alter,
        ...place,
      };
      return [{ part, task, sounding, fix }];
    });
  });
};
