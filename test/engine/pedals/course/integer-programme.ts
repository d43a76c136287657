import type { FootTask } from '../../../../engine/pedals/course/foot-changes.ts';
import { solveProgramme } from '../../integer-programme.ts';

/** What a course of a foot comes to, goal by goal. */
export interface Goals {
  readonly tooSoon: number;
  readonly moves: number;
  /** The sum of the prices of where the moves are made, and of how closely they follow each other. */
  readonly comfort: number;
}

/**
 * The best course of a foot that reads straight through, found by integer programmes instead of our dynamic one
 * (HiGHS): the fewest moves without time, then of those courses the fewest moves, then of those the most comfortable.
 *
 * `x` says where a pedal stands, `y` that a move is printed, `h` that there is no time for it, `c` what it costs to
 * follow another closely. Prices may not depend on where a move comes from.
 */
export const solveByIntegerProgramme = async (task: FootTask): Promise<Goals> => {
  const { goals, rules, binaries } = writeProgramme(task);
  const found: number[] = [];
  const bounds: string[] = [];
  for (const goal of goals) {
    const least = await solveProgramme({ goal, rules: [...rules, ...bounds], binaries });
    found.push(least);
    bounds.push(`${goal.join(' + ')} <= ${Math.round(least)}`);
  }
  const [tooSoon, moves, comfort] = found;
  return { tooSoon: Math.round(tooSoon!), moves: Math.round(moves!), comfort: comfort! };
};

interface Programme {
  /** Sums to be made least, the first before the second before the third. */
  readonly goals: readonly (readonly string[])[];
  readonly rules: readonly string[];
  readonly binaries: readonly string[];
}

const name = (position: number): string => ['f', 'n', 's'][position + 1]!;

const writeProgramme = (task: FootTask): Programme => {
  const [tooSoon, moves, comfort]: [string[], string[], string[]] = [[], [], []];
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
      tooSoon.push(hurry);
      moves.push(move);
      comfort.push(`${task.priceAt(pedal, moment, 0, 0)} ${move}`);
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
    comfort.push(`c${moment}`);
    for (const { at, price } of closeBefore(task, moment)) {
      for (const pedal of pedals) {
        for (const other of pedals) {
          const both = `${price} ${movesAt(pedal, moment)} - ${price} ${movesAt(other, at)}`;
          rules.push(`c${moment} - ${both} >= -${price}`);
        }
      }
    }
  }
  return { goals: [tooSoon, moves, comfort], rules, binaries };
};

/** The moments whose moves one at a moment follows closely, and the price; of several the nearest counts, the dearest. */
const closeBefore = (
  { graph, spacing, footRestSeconds }: FootTask,
  moment: number,
): { readonly at: number; readonly price: number }[] => {
  const found: { at: number; price: number }[] = [];
  let seconds = 0;
  for (let at = moment; at > 1; at -= 1) {
    seconds += graph.into[at]![0]!.seconds;
    const share = (spacing.comfortableSeconds - seconds) / (spacing.comfortableSeconds - footRestSeconds);
    if (share <= 1e-6) break;
    found.push({ at: at - 1, price: Math.round(spacing.price * Math.min(1, share) ** 2 * 1024) / 1024 });
  }
  return found;
};

/** Moves that leave no time for one at a moment: of a lower pedal at the same moment, or of any within the rest before. */
const rivalsOf = (task: FootTask, pedal: number, moment: number): string[] => {
  const rivals = new Set<string>();
  for (let lower = 0; lower < pedal; lower += 1) rivals.add(`y${lower}_${moment}`);
  const look = (at: number, seconds: number): void => {
    for (const edge of task.graph.into[at]!) {
      const gone = seconds + edge.seconds;
      if (gone >= task.footRestSeconds - 1e-6) continue;
      if (task.graph.into[edge.from]!.length > 0) {
        for (const other of task.choices.keys()) rivals.add(`y${other}_${edge.from}`);
      }
      look(edge.from, gone);
    }
  };
  look(moment, 0);
  return [...rivals];
};
