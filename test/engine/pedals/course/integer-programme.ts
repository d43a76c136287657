import highsModule from 'highs';
import type { FootTask } from '../../../../engine/pedals/course/printing.ts';

/**
 * The cost of the best course of a foot, found by an integer programme instead of our dynamic one (HiGHS).
 *
 * `x` says where a pedal stands, `y` that a move is printed, `h` that there is no time for it. Prices may not depend
 * on where a move comes from.
 */
export const solveByIntegerProgramme = async (task: FootTask): Promise<number> => {
  const highs = await loadHighs();
  const solved = highs.solve(writeProgramme(task));
  if (solved.Status !== 'Optimal') throw new Error(`HiGHS: ${solved.Status}`);
  return Math.round(solved.ObjectiveValue);
};

/** The package's types are written for CommonJS, where the loader is a member; as an ES module it is the default. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

const name = (position: number): string => ['f', 'n', 's'][position + 1]!;

const writeProgramme = (task: FootTask): string => {
  const objective: string[] = [];
  const rules: string[] = [];
  const binaries: string[] = [];
  const pedals = task.choices.map((_, pedal) => pedal);
  const movesAt = (pedal: number, moment: number): string => `y${pedal}_${moment}`;
  for (let moment = 0; moment < task.graph.moments; moment += 1) {
    for (const pedal of pedals) {
      const here = task.choices[pedal]![moment]!;
      rules.push(`${here.map((p) => `x${pedal}_${moment}_${name(p)}`).join(' + ')} = 1`);
      binaries.push(...here.map((p) => `x${pedal}_${moment}_${name(p)}`));
      if (task.graph.into[moment]!.length === 0) continue;
      const move = movesAt(pedal, moment);
      const hurry = `h${pedal}_${moment}`;
      objective.push(
        `${task.perMove + task.priceAt(pedal, moment, 0, 0)} ${move}`,
        `${task.tooSoon} ${hurry}`,
      );
      binaries.push(move, hurry);
      for (const edge of task.graph.into[moment]!) {
        const before = task.choices[pedal]![edge.from]!;
        for (const p of here) {
          const stood = before.includes(p) ? ` + x${pedal}_${edge.from}_${name(p)}` : '';
          rules.push(`${move} - x${pedal}_${moment}_${name(p)}${stood} >= 0`);
        }
      }
      for (const rival of rivalsOf(task, pedal, moment)) rules.push(`${hurry} - ${move} - ${rival} >= -1`);
    }
  }
  return [
    'Minimize',
    ` obj: ${objective.join(' + ')}`,
    'Subject To',
    ...rules.map((rule, i) => ` r${i}: ${rule}`),
    'Binary',
    ` ${binaries.join(' ')}`,
    'End',
  ].join('\n');
};

/** Moves that leave no time for one at a moment: of a lower pedal at the same moment, or of any within the rest before. */
const rivalsOf = (task: FootTask, pedal: number, moment: number): string[] => {
  const rivals = new Set<string>();
  for (let lower = 0; lower < pedal; lower += 1) rivals.add(`y${lower}_${moment}`);
  const look = (at: number, seconds: number): void => {
    for (const edge of task.graph.into[at]!) {
      const gone = seconds + edge.seconds;
      if (gone >= task.restSeconds - 1e-6) continue;
      if (task.graph.into[edge.from]!.length > 0) {
        for (const other of task.choices.keys()) rivals.add(`y${other}_${edge.from}`);
      }
      look(edge.from, gone);
    }
  };
  look(moment, 0);
  return [...rivals];
};
