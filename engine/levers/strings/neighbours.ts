import { bisector, groups } from 'd3-array';
import type { LeverHarpProfile } from '../../harp/lever-profile.ts';
import type { OpenTuning } from '../../harp/open-tuning.ts';
import { stepOf } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { spanOf } from '../../sounding/need-span.ts';
import type { Respelling } from '../../sounding/respelling.ts';
import type { Moments } from '../../time/moments.ts';
import type { LeverWeights } from '../weights.ts';
import { type LeverNeed, leverFor, otherLeverStrings, type StringChoice } from './strings.ts';

/** A need on its string, from its first moment to its last. */
interface Sounding {
  readonly need: LeverNeed;
  readonly first: number;
  readonly last: number;
}

/** Notes of one string that follow each other with the lever in one place. */
type Run = readonly Sounding[];

export interface NeighbourSearch {
  readonly tuning: OpenTuning;
  readonly profile: LeverHarpProfile;
  readonly moments: Moments;
  readonly weights: Pick<LeverWeights, 'change' | 'neighbourNote'>;
  /** Notes whose string the user chose: they stay on it. */
  readonly chosen: ReadonlySet<string>;
}

/**
 * Plays notes on a neighbouring string of the same pitch where that saves changes of the levers: each run of notes for
 * which a lever is set there and back, the shortest runs first, if the changes saved are worth more than the notes on
 * another string. What the changes come to is counted in printed order, so that a caller has to see whether the whole
 * is better where the music turns back.
 *
 * @returns the same choice where nothing is saved
 */
export const useNeighbours = (choice: StringChoice, search: NeighbourSearch): StringChoice => {
  const lines = new Map(
    groups(
      choice.needs.map((need): Sounding => ({ need, ...spanOf(need, search.moments) })),
      ({ need }) => stepOf(need),
    ).map(([step, line]) => [step, line.sort(inOrder)]),
  );
  const respelled = new Set(choice.respellings.map(({ note }) => note));
  const isMovable = ({ need }: Sounding): boolean =>
    need.kind === 'plucked' && !respelled.has(need.note.id) && !search.chosen.has(need.note.id);
  const moved = new Map<LeverNeed, LeverNeed>();
  for (const run of listRuns([...lines.values()], isMovable)) {
    const better = moveRun(run, lines, search);
    if (better === null) continue;
    for (const [i, need] of better.entries()) moved.set(run[i]!.need, need);
  }
  if (moved.size === 0) return choice;
  const told = [...moved].map(
    ([{ note, letter, octave, alter }, to]): Respelling => ({
      note: note.id,
      from: { letter, octave, alter },
      to: { letter: to.letter, octave: to.octave, alter: to.alter },
    }),
  );
  return {
    ...choice,
    needs: choice.needs.map((need) => moved.get(need) ?? need),
    respellings: [...choice.respellings, ...told],
  };
};

const inOrder = (a: Sounding, b: Sounding): number => a.first - b.first || a.last - b.last;

/** The runs that stand between or beside others of their string, the shortest first. */
const listRuns = (
  lines: readonly (readonly Sounding[])[],
  isMovable: (each: Sounding) => boolean,
): readonly Run[] =>
  lines
    .flatMap((line) => {
      const runs: Sounding[][] = [];
      for (const each of line) {
        const run = runs.at(-1);
        if (run !== undefined && run[0]!.need.position === each.need.position) run.push(each);
        else runs.push([each]);
      }
      return runs.length > 1 ? runs.filter((run) => run.every(isMovable)) : [];
    })
    .sort((a, b) => a.length - b.length || a[0]!.first - b[0]!.first);

/** Takes a run to another string, if one can take it and that is worth it; the strings' lines follow. */
const moveRun = (
  run: Run,
  lines: Map<number, Sounding[]>,
  { tuning, profile, weights }: NeighbourSearch,
): readonly LeverNeed[] | null => {
  const { need } = run[0]!;
  const from = lines.get(stepOf(need))!;
  const at = from.indexOf(run[0]!, byFirst.left(from, run[0]!));
  const around = [from[at - 1], from[at + run.length]].filter((each) => each !== undefined);
  const isWorth = (changes: number): boolean => weights.change * changes > weights.neighbourNote * run.length;
  const saved = countTurns([...around.slice(0, 1), ...run, ...around.slice(1)]) - countTurns(around);
  if (around.length === 0 || !isWorth(saved)) return null;
  for (const other of otherLeverStrings(need)) {
    const position = leverFor(other, tuning, profile);
    if (position === null) continue;
    const there = lines.get(stepOf(other)) ?? [];
    const line = run.map((each): Sounding => ({ ...each, need: { ...each.need, ...other, position } }));
    const [start, end] = [byFirst.left(there, line[0]!), byFirst.right(there, line.at(-1)!)];
    const beside = there.slice(Math.max(0, start - 1), end + 1);
    const both = [...beside, ...line].sort(inOrder);
    if (hasHindrance(both) || !isWorth(saved - (countTurns(both) - countTurns(beside)))) continue;
    from.splice(at, run.length);
    lines.set(stepOf(other), there.toSpliced(Math.max(0, start - 1), beside.length, ...both));
    return line.map((each) => each.need);
  }
  return null;
};

const byFirst = bisector<Sounding, Sounding>((a, b) => a.first - b.first);

/** How often the lever of a string is set along the print. */
const countTurns = (line: readonly Sounding[]): number =>
  line.reduce((sum, { need }, i) => sum + Number(i > 0 && line[i - 1]!.need.position !== need.position), 0);

/** Whether a string is plucked by two notes at once, or has to change its pitch while it sounds. */
const hasHindrance = (line: readonly Sounding[]): boolean =>
  line.some((each, i) => {
    const before = line[i - 1];
    if (before === undefined) return false;
    const isBent =
      before.need.position !== each.need.position && compare(before.need.release, each.need.onset) > 0;
    return each.first <= before.last || isBent;
  });
