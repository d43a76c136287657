import type { EngravingOptions } from '../../engraving-options.ts';
import { LONE_LINE, pageCoster } from './break-costs.ts';
import { GAP_VU, headingLoss, withUnder } from './page-space.ts';
import { isTurn, type RateTurn } from './page-turns.ts';
import { fitPages } from './total-fit.ts';

/** Systems as they were laid out; lengths in vu. */
export interface PageRequest {
  readonly systems: readonly { readonly firstBar: number; readonly height: number }[];
  readonly heading: number;
  /** What stands under the last system, on its page where a page holds both. */
  readonly under: number;
  readonly room: number;
  readonly turns: EngravingOptions['pageTurns'];
  readonly rate: RateTurn;
}

/**
 * What stands under the last system goes on to a page of its own where that spares turns for which no hand is free: it is
 * read before playing.
 *
 * @returns indices of the systems that begin a page, the first included
 */
export const choosePages = (request: PageRequest): readonly number[] => {
  const together = fitSystems(request);
  if (request.under === 0 || countHurried(request, together) === 0) return together;
  const apart = fitSystems({ ...request, under: 0 });
  return countHurried(request, apart) < countHurried(request, together) ? apart : together;
};

/** How many pages are turned while both hands play. */
const countHurried = ({ rate, systems, turns }: PageRequest, starts: readonly number[]): number =>
  starts.filter(
    (start, page) =>
      page > 0 && isTurn(page % 2 === 1, turns) && rate(systems[start]!.firstBar).free === 'none',
  ).length;

const fitSystems = ({ heading, rate, room, systems, turns, under }: PageRequest): readonly number[] => {
  const heightOf = (system: number): number => {
    const { height } = systems[system]!;
    return system < systems.length - 1 ? height : withUnder(height, under, room);
  };
  return fitPages({
    bars: systems.length,
    linesFrom: (system) => [{ until: system + 1, cost: 0, height: heightOf(system) + GAP_VU }],
    room: room + GAP_VU,
    heading: headingLoss(heading),
    pageCost: pageCoster(turns, rate, (system) => systems[system]!.firstBar),
    loneLast: LONE_LINE,
  }).pages;
};

/** Whether every page holds what it is given, when pages begin at these systems. */
export const holdAll = (
  { heading, room, systems }: Pick<PageRequest, 'heading' | 'room' | 'systems'>,
  starts: readonly number[],
): boolean =>
  starts.every((start, page) => {
    const held = systems.slice(start, starts[page + 1]);
    const height = held.reduce(
      (sum, system) => sum + system.height + GAP_VU,
      page === 0 ? headingLoss(heading) : 0,
    );
    return height <= room + GAP_VU;
  });
