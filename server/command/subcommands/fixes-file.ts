import {
  capitalize,
  fixLists,
  forSomePlaces,
  nameCount,
  namePlaceInBar,
  tellCosts,
  tellFixedBefore,
  tellFreeSpelling,
  tellHeard,
  tellMended,
  tellPlayableUpTo,
  tellWarningsLeft,
  tempoFigure,
  warningsBeside,
} from '../../../engine/index.ts';
import type { FixesReport, ReportedFix } from '../../api/answers/fixes.ts';
import { fixesOptions } from '../../api/requests/options.ts';
import { findFixes } from '../../threads/tasks/find-fixes.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readRequest } from '../arguments/choice.ts';
import type { FixesCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { openProgressLine } from '../progress-line.ts';
import { describeRemarks, oneLine } from '../summary.ts';

type Place = FixesReport['places'][number];

const listsOf = fixLists<ReportedFix, Place, FixesReport>;
type List = ReturnType<typeof listsOf>[number];

const headingOf = ({ passage, places: [first] }: List): string =>
  passage === null
    ? `${capitalize(namePlaceInBar(first!.barName, first!.beat))}: ${first!.sentence}`
    : `${capitalize(passage.bars)}: ${passage.sentence}`;

const describeList = (list: List): readonly string[] => [
  headingOf(list),
  ...(list.inPassage === null ? [] : [`  ${tellFixedBefore(list.inPassage.bars)}`]),
  ...describeEach(list),
];

const describeEach = ({ fixes, places }: List): readonly string[] => [
  ...(fixes.length === 0
    ? ['  No single change was found that helps.']
    : fixes.map(
        (fix) =>
          `  ${forSomePlaces(fix.places?.length, places.length)}${fix.sentence} ${tellHeard(fix.heard)}${describeCosts(fix)}${describeOthers(fix)}`,
      )),
];

/** What it costs, and what is risky with it all the same. */
const describeCosts = (fix: ReportedFix): string =>
  [
    tellCosts(fix.moreMoves, fix.warningsThen),
    ...(fix.kind === 'tempo' ? [tellWarningsLeft(warningsBeside(fix.tempo.left, fix.warningsThen))] : []),
  ]
    .filter(Boolean)
    .map((each) => ` ${each}`)
    .join('');

const describeOthers = ({ alsoFixes }: ReportedFix): string =>
  alsoFixes > 0 ? ` Makes ${nameCount(alsoFixes, 'other place')} playable too.` : '';

/** The longest row of the graph. */
const MOST_MARKS = 20;

/** One line a tempo: how many places are not playable there. */
const describeTempo = ({
  tempo: { unit, written, isAssumed, playableUpTo, left, mended, proved, steps },
}: FixesReport): readonly string[] => {
  if (steps.at(-1)!.stops === 0) return [];
  const figure = (quarters: number): string => tempoFigure(quarters, unit);
  const limit =
    playableUpTo === null
      ? null
      : `${unit.sign} = ${figure(playableUpTo)}${proved ? '' : ' (as far as it was tried)'}`;
  const widest = Math.max(...steps.map(({ stops }) => stops));
  return [
    [
      tellPlayableUpTo(limit, figure(written), isAssumed),
      tellWarningsLeft(left),
      tellMended(
        mended.map(({ barName, beat, quartersPerMinute, there }) => ({
          barName,
          beat,
          tempo: `${unit.sign} = ${figure(quartersPerMinute)}`,
          there: `${unit.sign} = ${figure(there)}`,
        })),
      ),
    ]
      .filter(Boolean)
      .join(' '),
    'Places not playable, by the first tempo of the part; its other tempos are slowed alike:',
    ...steps.map(
      ({ quartersPerMinute, stops }) =>
        `  ${unit.sign} = ${figure(quartersPerMinute)}: ${stops} ${'▪'.repeat(Math.ceil((MOST_MARKS * stops) / widest))}`,
    ),
  ];
};

const describeFixes = (report: FixesReport): readonly string[] => [
  // What one option does for the whole part comes before what is done place by place.
  ...(report.freeSpelling === null
    ? []
    : [`${tellFreeSpelling(report.freeSpelling)} The option --spelling free chooses it.`]),
  ...listsOf(report).flatMap(describeList),
  ...(report.untried > 0 ? [`${nameCount(report.untried, 'more place')} not looked at`] : []),
  ...describeTempo(report),
  ...describeRemarks(report.remarks),
  report.places.length === 0
    ? 'No place is unplayable, so there is nothing to fix. What feet and hands find hard is told by tringle plan.'
    : `${nameCount(report.places.length + report.untried, 'place')} not playable`,
  ...(report.places.some(({ fixes }) => fixes.length > 0)
    ? ['Each is reckoned alone: plan again after taking one.']
    : []),
];

/** Prints the smallest fixes of what cannot be played in one file. */
export const fixesOfFile = async (
  command: FixesCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const asked = await readRequest(fixesOptions, command);
  if (!asked.ok) return asked.ending;
  const { choice, file } = asked.value;
  const line = openProgressLine();
  line.show('planning ...');
  const found = await findFixes(file, choice, startStageClock(IGNORE_PROGRESS), (done, all) =>
    line.show(
      done < all ? `searching for fixes: place ${done + 1} of ${all} ...` : 'trying slower tempos ...',
    ),
  );
  line.clear();
  if (!found.ok) return resultOfProblem(command.input, found.problem);
  if (command.json) print(JSON.stringify(found.value, null, 2));
  else for (const line of describeFixes(found.value)) print(/^ */.exec(line)![0] + oneLine(line));
  return { code: EXIT.done };
};
