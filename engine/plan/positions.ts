import { POSITIONS, type Position } from '../harp/setting.ts';
import type { Need } from './needs.ts';

/** A need at one moment; a trill or a glissando needs its pedal at every moment of its span. */
export interface PlacedNeed {
  readonly need: Need;
  readonly moment: number;
}

/** One pedal's move before its moment is chosen: after moment `open`, at the latest at moment `close`. */
export interface PendingMove {
  readonly from: Position;
  readonly to: Position;
  readonly open: number;
  readonly close: number;
  readonly after: Need;
  readonly before: Need;
}

/** The course of one pedal through the piece. */
export interface PedalCourse {
  readonly initial: Position;
  readonly moves: readonly PendingMove[];
  /** Needs that clash with others at the same moment and are not met, whatever the feet do. */
  readonly unserved: readonly Need[];
}

/**
 * The course with the fewest unmet needs and, among those, the fewest moves.
 *
 * Needs are grouped by moment; an exact dynamic programme over the three positions pays a large price for each need
 * that the position does not meet and a small one for each move. Linear in the needs.
 *
 * @param needs of one letter, in order of moment
 * @param idle the position of a pedal that nothing needs
 */
export const courseOf = (needs: readonly PlacedNeed[], idle: Position): PedalCourse => {
  const groups = groupByMoment(needs);
  if (groups.length === 0) return { initial: idle, moves: [], unserved: [] };
  const positions = cheapestPositions(groups);
  const moves: PendingMove[] = [];
  for (let i = 1; i < groups.length; i += 1) {
    const from = positions[i - 1]!;
    const to = positions[i]!;
    if (from === to) continue;
    const after = groups[i - 1]!;
    const before = groups[i]!;
    moves.push({
      from,
      to,
      open: after.moment,
      close: before.moment,
      after: after.needs.find((need) => need.position === from) ?? after.needs[0]!,
      before: before.needs.find((need) => need.position === to) ?? before.needs[0]!,
    });
  }
  const unserved = new Set(
    groups.flatMap((group, i) => group.needs.filter((need) => need.position !== positions[i])),
  );
  return { initial: positions[0]!, moves, unserved: [...unserved] };
};

interface NeedGroup {
  readonly moment: number;
  readonly needs: readonly Need[];
}

const groupByMoment = (needs: readonly PlacedNeed[]): NeedGroup[] => {
  const groups: { moment: number; needs: Need[] }[] = [];
  for (const { need, moment } of needs) {
    const last = groups.at(-1);
    if (last?.moment === moment) last.needs.push(need);
    else groups.push({ moment, needs: [need] });
  }
  return groups;
};

/** One unmet need outweighs any number of moves. */
const UNMET = 1e6;

const cheapestPositions = (groups: readonly NeedGroup[]): Position[] => {
  let costs = POSITIONS.map(() => 0);
  const cameFrom: number[][] = [];
  groups.forEach((group, i) => {
    const back: number[] = [];
    costs = POSITIONS.map((position, p) => {
      const unmet = group.needs.filter((need) => need.position !== position).length;
      let best = i === 0 ? p : 0;
      let cost = Number.POSITIVE_INFINITY;
      costs.forEach((before, q) => {
        if (i === 0 && q !== p) return;
        const reached = before + (q === p ? 0 : 1);
        if (reached < cost || (reached === cost && q === p)) {
          cost = reached;
          best = q;
        }
      });
      back.push(best);
      return cost + UNMET * unmet;
    });
    cameFrom.push(back);
  });
  let at = costs.indexOf(Math.min(...costs));
  const chosen: Position[] = [];
  for (let i = groups.length - 1; i >= 0; i -= 1) {
    chosen.push(POSITIONS[at]!);
    at = cameFrom[i]![at]!;
  }
  return chosen.reverse();
};
