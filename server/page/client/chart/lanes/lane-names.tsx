import type { ComponentChildren } from 'preact';
import {
  accidentalSign,
  LETTERS,
  type Letter,
  POSITIONS,
  type Position,
} from '../../../../../engine/index.ts';
import { HEIGHT, LEFT, laneBox, levelOf } from '../geometry/chart-geometry.ts';

/** The right end of the letter, and of each sign: one beside the other, since their lines are close. */
const LETTER_AT = LEFT - 33;
const SIGN_AT: Readonly<Record<Position, number>> = { [-1]: LEFT - 22, 0: LEFT - 12, 1: LEFT - 3 };

/** A lane's letter, and the sign of each of its three lines. */
export const LaneName = ({ letter }: { readonly letter: Letter }) => {
  const { top, height } = laneBox(letter);
  return (
    <>
      <text class="letter" x={LETTER_AT} y={top + height / 2 + 5}>
        {letter}
      </text>
      {POSITIONS.map((position) => (
        <text key={position} class="sign" x={SIGN_AT[position]} y={levelOf(letter, position) + 4}>
          {accidentalSign(position)}
        </text>
      ))}
    </>
  );
};

/** What stays in sight at the left of a chart while it scrolls beneath: the names of its lanes. */
export const LaneNamesColumn = ({
  height,
  children,
}: {
  /** Of the chart. */
  readonly height: number;
  readonly children: ComponentChildren;
}) => (
  <svg
    class="lane-names"
    width={LEFT - 1}
    height={height}
    style={{ marginBottom: `${-height}px` }}
    aria-hidden="true"
  >
    <rect class="cover" width={LEFT - 1} height={height} />
    {children}
  </svg>
);

/** The names of the pedals' lanes. */
export const LaneNames = () => (
  <LaneNamesColumn height={HEIGHT}>
    {LETTERS.map((letter) => (
      <LaneName key={letter} letter={letter} />
    ))}
  </LaneNamesColumn>
);
