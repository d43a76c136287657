import { nameMovesInTime } from '../../../engine/index.ts';
import { type SettingReport, settingAtBarOptions, settingOptions } from '../../api/answers/settings.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { exploreSetting, exploreSettingAtBar } from '../../threads/tasks/settings/explore-setting.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { type Read, readChoice, readScoreFile } from '../arguments/choice.ts';
import type { SettingCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { EVERY_ROOT, oneLine, tabulate } from '../summary.ts';

type Pairs = SettingReport['doubled'];

/** A list is cut where a terminal would be flooded; `--json` has all of it. */
const MOST_SHOWN = 12;

const namePairs = (pairs: Pairs): string => pairs.map((pair) => pair.join('=')).join(' ');

const nameSeconds = (seconds: number): string => `${Number(seconds.toFixed(3))} s`;

const nameChanges = (changes: readonly { readonly change: string }[]): string =>
  changes.map(({ change }) => change).join(' ');

const describeSounds = ({ sounds }: SettingReport): readonly string[] => {
  const named = (title: string, which: SettingReport['sounds']): readonly string[] =>
    which.length === 0 ? [] : [`${title}: ${which.map(({ name }) => name).join(', ')}`];
  const parts = sounds.filter(({ whole }) => !whole);
  return [
    ...named(
      'all strings together',
      sounds.filter(({ whole }) => whole),
    ),
    ...named(
      'chords',
      parts.filter(({ kind }) => kind === 'chord'),
    ),
    ...named(
      'scales',
      parts.filter(({ kind }) => kind === 'scale'),
    ),
  ];
};

const describeNeighbours = ({ neighbours, sounds }: SettingReport): readonly string[] => {
  const told = (names: readonly string[]): string =>
    names.length > 3 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');
  return [
    'one move away:',
    ...tabulate(
      ['change', 'foot', 'adds', 'takes', 'same pitch', 'new', 'lost'],
      neighbours.map(({ change, foot, adds, takes, doubles, gains, loses }) => [
        change,
        foot,
        adds.join(' '),
        takes.join(' '),
        namePairs(doubles),
        told(gains),
        sounds.length === loses.length ? 'all' : `${loses.length}`,
      ]),
    ),
  ];
};

const describeWay = ({ way }: SettingReport): readonly string[] => {
  if (way === null) return [];
  if (way.moves === 0) return [`to ${way.to}: the pedals stand so already`];
  return [
    `to ${way.to}: ${nameMovesInTime(way.moves, way.seconds)}; no way is shorter`,
    ...tabulate(
      ['at', 'moves', 'then'],
      way.steps.map(({ seconds, changes, setting }) => [
        nameSeconds(seconds),
        changes.map(({ change, foot }) => `${change} (${foot})`).join(', '),
        setting,
      ]),
    ),
  ];
};

type FoundList = NonNullable<SettingReport['search']>['whole'];

/** @param first the first column: 0 for the sound, 1 where all settings are for one */
const describeFound = (title: string, { total, settings }: FoundList, first: number): readonly string[] =>
  total === 0
    ? []
    : [
        `${title}: ${total}`,
        ...tabulate(
          ['sound', 'setting', 'moves', 'time', 'to move', 'same pitch', 'other strings', 'missing'].slice(
            first,
          ),
          settings
            .slice(0, MOST_SHOWN)
            .map(({ sound, setting, moves, seconds, changes, doubled, foreign, missing }) =>
              [
                sound,
                setting,
                `${moves}`,
                nameSeconds(seconds),
                nameChanges(changes),
                namePairs(doubled),
                foreign.join(' '),
                missing.join(' '),
              ].slice(first),
            ),
        ),
        ...(total > MOST_SHOWN ? [`and ${total - MOST_SHOWN} more`] : []),
      ];

const describeSearch = ({ search }: SettingReport): readonly string[] => {
  if (search === null) return [];
  const onAnyRoot = search.notes.length === 0;
  const found = (title: string, list: FoundList): readonly string[] =>
    describeFound(title, list, onAnyRoot ? 0 : 1);
  return [
    `${oneLine(search.sound)}: ${onAnyRoot ? EVERY_ROOT : search.notes.join(' ')}`,
    ...found('settings that give exactly this sound', search.whole),
    ...found('settings that have it among other strings', search.holding),
    ...found('no setting has all of it; those that come nearest', search.nearest),
  ];
};

const describeReport = (report: SettingReport): readonly string[] => [
  report.barName === null ? report.setting : `bar ${oneLine(report.barName)}: ${report.setting}`,
  ...(report.doubled.length === 0 ? [] : [`same pitch: ${namePairs(report.doubled)}`]),
  ...(report.outOfOrder ? ['a string sounds lower than the string below it'] : []),
  ...describeSounds(report),
  ...describeNeighbours(report),
  ...describeWay(report),
  ...describeSearch(report),
];

const explore = async ({ input, options }: SettingCommand): Promise<Read<SettingReport>> => {
  if (input === null) {
    const choice = await readChoice(settingOptions, options);
    if (!choice.ok) return choice;
    const explored = exploreSetting(choice.value);
    return explored.ok
      ? explored
      : { ok: false, ending: { code: EXIT.usage, message: anyProblemMessage(explored.problem) } };
  }
  const choice = await readChoice(settingAtBarOptions, options);
  if (!choice.ok) return choice;
  const read = await readScoreFile(input);
  if (!read.ok) return read;
  const explored = await exploreSettingAtBar(read.value, choice.value, startStageClock(IGNORE_PROGRESS));
  return explored.ok ? explored : { ok: false, ending: resultOfProblem(input, explored.problem) };
};

/** Prints what a setting holds and what is near it. */
export const describeSettingOf = async (
  command: SettingCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const explored = await explore(command);
  if (!explored.ok) return explored.ending;
  if (command.json) print(JSON.stringify(explored.value, null, 2));
  else for (const line of describeReport(explored.value)) print(line);
  return { code: EXIT.done };
};
