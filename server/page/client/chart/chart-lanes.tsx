import { type FindingPlace, GRADES, type Letter, type Move, toNumber } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { allowedFor } from '../planner/moved-moment.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import {
  DIVIDER_Y,
  findingQuarters,
  HEIGHT,
  LEFT,
  laneBox,
  lengthQuarters,
  needTicks,
  stepPath,
  type XOf,
} from './chart-geometry.ts';
import { nearOf, type QuarterSpan } from './chart-window.ts';
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

/** Bar lines, and numbers as far apart as they can be read. */
export const Bars = ({
  part,
  near,
  xOf,
}: {
  readonly part: PlannedPart;
  readonly near: QuarterSpan;
  readonly xOf: XOf;
}) => {
  const bars = nearOf(part.bars, near);
  let written = Number.NEGATIVE_INFINITY;
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines takes no focus
    <g aria-hidden="true">
      <path class="bar" d={bars.map(({ onsetQuarters }) => `M${xOf(onsetQuarters)} 18V${HEIGHT}`).join('')} />
      <path class="divider" d={`M${LEFT} ${DIVIDER_Y}H${xOf(lengthQuarters(part))}`} />
      {bars.map(({ number, onsetQuarters }) => {
        const x = xOf(onsetQuarters);
        if (x - written < 40) return null;
        written = x;
        return (
          <text key={onsetQuarters} class="number" x={x + 2} y={13}>
            {number}
          </text>
        );
      })}
    </g>
  );
};

/** From this grade on a passage is shaded, and any that is not playable. */
const HARD = GRADES.indexOf('hard');

/** The passages in which the feet or hands have much to do. */
export const HardSpots = ({ part, xOf }: { readonly part: PlannedPart; readonly xOf: XOf }) => (
  <>
    {part.plan.summary.difficulty.passages
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
            height={HEIGHT - 18}
          >
            <title>{`${STRINGS.difficulty.phrase(grade)}. ${reasons.join(' ')}`}</title>
          </rect>
        );
      })}
  </>
);

/** Each place that cannot be played as printed, those of one passage too. */
const listImpossible = ({ plan }: PlannedPart): readonly FindingPlace[] =>
  plan.findings.filter(({ severity }) => severity === 'stop').flatMap(({ places }) => places);

export const Impossible = ({ part, xOf }: { readonly part: PlannedPart; readonly xOf: XOf }) => (
  <>
    {listImpossible(part).map((place, i) => {
      const x = xOf(findingQuarters(part, place));
      return (
        // biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: a group of shapes is not interactive
        <g key={i} class="impossible" role="img" aria-label={words.impossible(place.sentence)}>
          <rect x={x - 5} y={18} width={10} height={HEIGHT - 18} />
          <path d={`M${x - 4} 18l8 8m0 -8l-8 8`} />
        </g>
      );
    })}
  </>
);

/** The span in which a move may be made, and the moments in it. */
export const WindowBar = ({
  part,
  at,
  xOf,
}: {
  readonly part: PlannedPart;
  /** Index into the plan's moves. */
  readonly at: number;
  readonly xOf: XOf;
}) => {
  const move: Move = part.plan.moves[at]!;
  const { after, before } = move.window;
  const from = after === null ? 0 : toNumber(after.onset);
  const until = before === null ? lengthQuarters(part) : toNumber(before.onset);
  const { top, height } = laneBox(move.letter);
  const ticks = allowedFor(part, at).map(({ quarters }) => `M${xOf(quarters)} ${top}v5m0 ${height - 10}v5`);
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
