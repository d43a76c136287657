import type { ComponentChildren } from 'preact';
import { GRADES, type Grade, type Letter } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { BarPlace, PlannedPart } from '../../planner/planned-part.ts';
import {
  DIVIDER_Y,
  LEFT,
  laneBox,
  lengthQuarters,
  needTicks,
  stepPath,
  type XOf,
} from '../geometry/chart-geometry.ts';
import { nearOf, type QuarterSpan } from '../geometry/chart-window.ts';
import { LaneName } from './lane-names.tsx';

const words = STRINGS.chart;

/** One pedal: what the notes ask, and where it stands. */
export const Lane = ({
  part,
  letter,
  near,
  xOf,
}: {
  readonly part: PlannedPart;
  readonly letter: Letter;
  readonly near: QuarterSpan;
  readonly xOf: XOf;
}) => {
  const { top, height } = laneBox(letter);
  return (
    <g>
      <rect class="lane" x={LEFT} y={top} width={xOf(lengthQuarters(part)) - LEFT} height={height} />
      <LaneName letter={letter} />
      <path class="need" d={needTicks(nearOf(part.needs, near), letter, xOf)} />
      <path class="course" d={stepPath(part, letter, xOf)} />
    </g>
  );
};

/** Px between two numbers of bars, and from the numeral of a movement to that of the next, to be read apart. */
const NUMBER_APART = 40;
const NUMERAL_APART = 22;

/** The names of bars above the chart: the numerals where movements begin, and numbers as far apart as they can be read. */
const nameBars = (bars: readonly BarPlace[], xOf: XOf): readonly BarPlace[] => {
  let free = Number.NEGATIVE_INFINITY;
  const openings = bars.filter(({ opens, onsetQuarters }) => {
    if (opens === '' || xOf(onsetQuarters) < free) return false;
    free = xOf(onsetQuarters) + NUMERAL_APART;
    return true;
  });
  const taken = openings.map(({ onsetQuarters }) => xOf(onsetQuarters));
  return bars.filter((bar) => {
    if (openings.includes(bar)) return true;
    const x = xOf(bar.onsetQuarters);
    if (taken.some((each) => Math.abs(each - x) < NUMBER_APART)) return false;
    taken.push(x);
    return true;
  });
};

/** Where movements begin but the first: a thin and a thick line, as at the end of the movement before. */
const movementLines = (bars: readonly BarPlace[], xOf: XOf, height: number) => {
  const later = bars.filter(({ opens, onsetQuarters }) => opens !== '' && onsetQuarters > 0);
  const lines = (left: number): string =>
    later.map(({ onsetQuarters }) => `M${xOf(onsetQuarters) - left} 2V${height}`).join('');
  return (
    <>
      <path class="bar movement" d={lines(5)} />
      <path class="bar movement thick" d={lines(1)} />
    </>
  );
};

/** Bar lines, heavier between movements, and what bars and movements are called. */
export const Bars = ({
  part,
  near,
  xOf,
  height,
  children,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  readonly near: QuarterSpan;
  readonly xOf: XOf;
  /** Of the chart. */
  readonly height: number;
  /** Further lines. */
  readonly children?: ComponentChildren;
}) => {
  const bars = nearOf(part.bars, near);
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines takes no focus
    <g aria-hidden="true">
      <path class="bar" d={bars.map(({ onsetQuarters }) => `M${xOf(onsetQuarters)} 18V${height}`).join('')} />
      {movementLines(bars, xOf, height)}
      {children}
      {nameBars(bars, xOf).map(({ name, opens, onsetQuarters }) => (
        <text
          key={onsetQuarters}
          class={opens === '' ? 'number' : 'number movement'}
          x={xOf(onsetQuarters) + 2}
          y={13}
        >
          {opens === '' ? name : opens}
        </text>
      ))}
    </g>
  );
};

/** Where the feet part. */
export const Divider = ({ part, xOf }: { readonly part: Pick<PlannedPart, 'bars'>; readonly xOf: XOf }) => (
  <path class="divider" d={`M${LEFT} ${DIVIDER_Y}H${xOf(lengthQuarters(part))}`} />
);

/** From this grade on a passage is shaded, and any that is not playable. */
const HARD = GRADES.indexOf('hard');

/** How hard some bars are; they are named by their indices. */
export interface GradedBars {
  readonly from: number;
  readonly until: number;
  readonly grade: Grade;
  readonly playable: boolean;
  readonly reasons: readonly string[];
}

/** The passages in which the feet or hands have much to do. */
export const HardSpots = ({
  part,
  passages,
  xOf,
  height,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  readonly passages: readonly GradedBars[];
  readonly xOf: XOf;
  /** Of the chart. */
  readonly height: number;
}) => (
  <>
    {passages
      .filter(({ grade, playable }) => !playable || GRADES.indexOf(grade) >= HARD)
      .map(({ from, until, grade, playable, reasons }) => {
        const last = part.bars[until]!;
        const x = xOf(part.bars[from]!.onsetQuarters);
        return (
          <rect
            key={from}
            class={playable ? `hard ${grade}` : 'hard not-playable'}
            x={x}
            y={18}
            width={xOf(last.onsetQuarters + last.durationQuarters) - x}
            height={height - 18}
          >
            <title>{`${STRINGS.difficulty.phrase(grade)}. ${reasons.join(' ')}`}</title>
          </rect>
        );
      })}
  </>
);

/** Something that cannot be played, and when. */
export interface ChartedStop {
  readonly quarters: number;
  readonly sentence: string;
}

/** Each place that cannot be played as printed, those of one passage too. */
export const Impossible = ({
  places,
  xOf,
  height,
}: {
  readonly places: readonly ChartedStop[];
  readonly xOf: XOf;
  /** Of the chart. */
  readonly height: number;
}) => (
  <>
    {places.map(({ quarters, sentence }, i) => {
      const x = xOf(quarters);
      return (
        // biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: a group of shapes is not interactive
        <g
          key={i}
          class="impossible"
          role="img"
          aria-label={STRINGS.spokenDoubles(words.impossible(sentence))}
        >
          <rect x={x - 5} y={18} width={10} height={height - 18} />
          <path d={`M${x - 4} 17l8 8m0 -8l-8 8`} />
        </g>
      );
    })}
  </>
);

/** The span in which a move may be made, and the moments in it. In quarters. */
export const WindowBar = ({
  from,
  until,
  moments,
  lane: { top, height },
  xOf,
}: QuarterSpan & {
  readonly moments: readonly number[];
  readonly lane: { readonly top: number; readonly height: number };
  readonly xOf: XOf;
}) => {
  const ticks = moments.map((quarters) => `M${xOf(quarters)} ${top}v5m0 ${height - 10}v5`);
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines takes no focus
    <g aria-hidden="true">
      <rect
        class="window"
        x={xOf(from)}
        y={top}
        width={Math.max(2, xOf(until) - xOf(from))}
        height={height}
      />
      <path class="allowed" d={ticks.join('')} />
    </g>
  );
};
