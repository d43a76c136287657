import { group } from 'd3-array';
import { footOf, isSetting, type JudgedChange, type Letter, type Score } from '../../engine/index.ts';

/** What a sign is drawn of. */
interface Judged {
  readonly change: JudgedChange;
}

/** What tells how the markings of a file stand on the page. */
export interface StandingMarkings {
  readonly markings: Score['markings'];
  /** Whether we draw a marking, the right foot above the left; else it stands as its words do, in a line. */
  readonly isDrawn: (marking: number) => boolean;
}

/**
 * The changes of one moment as their signs stand: in the order of the names that they judge, so that none seems to belong
 * to another; what is missing comes last. What is all right needs one sign, however many pedals it moves.
 *
 * @param here in order of place
 * @param standing null for levers, whose words name them in a line
 */
export const signRows = <Each extends Judged>(
  here: readonly Each[],
  standing: StandingMarkings | null,
): readonly (readonly Each[])[] => {
  if (here.every(isRight)) return [here.slice(0, 1)];
  const written = here.filter(({ change }) => change.marking !== null);
  const byMarking = [...group(written, ({ change }) => change.marking!)].sort(([a], [b]) => a - b);
  const missing = here.filter(({ change }) => change.marking === null);
  return [
    ...byMarking.flatMap(([marking, changes]) =>
      standing === null ? [changes] : rowsIn(marking, changes, standing),
    ),
    ...missing.map((each) => [each]),
  ].map((row) => (row.every(isRight) ? row.slice(0, 1) : row));
};

const isRight = ({ change }: Judged): boolean => change.verdict === 'right';

const rowsIn = <Each extends Judged>(
  marking: number,
  changes: readonly Each[],
  { markings, isDrawn }: StandingMarkings,
): readonly (readonly Each[])[] => {
  const { positions } = markings[marking]!;
  if (isSetting(positions)) return rowsUnderSetting(changes);
  const named = Object.keys(positions);
  const ordered = changes.toSorted((a, b) => named.indexOf(letterOf(a)) - named.indexOf(letterOf(b)));
  if (isDrawn(marking))
    return (['right', 'left'] as const)
      .map((foot) => ordered.filter((each) => footOf(letterOf(each)) === foot))
      .filter((row) => row.length > 0);
  return [ordered];
};

/** A setting is one picture: what is right in it has one sign, and what is not tells its name. */
const rowsUnderSetting = <Each extends Judged>(changes: readonly Each[]): readonly (readonly Each[])[] => {
  const right = changes.filter(isRight);
  const others = changes.filter((each) => !isRight(each));
  return [...right.slice(0, 1), ...others].map((each) => [each]);
};

const letterOf = ({ change }: Judged): Letter => {
  const [first] = change.stated;
  return 'string' in first! ? first.string.letter : first!.letter;
};
