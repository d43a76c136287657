import highsModule from 'highs';

/** The package's types are written for CommonJS, where the loader is a member; as an ES module it is the default. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

/** What is to be made least, in the LP format. */
export interface IntegerProgramme {
  /** Terms of the sum, such as `3 x1`; empty where any solution will do. */
  readonly goal: readonly string[];
  readonly rules: readonly string[];
  readonly binaries: readonly string[];
}

/** The least that the goal can come to (HiGHS). @throws Error where there is no solution */
export const solveProgramme = async ({ goal, rules, binaries }: IntegerProgramme): Promise<number> => {
  const highs = await loadHighs();
  const programme = [
    'Minimize',
    ` obj: ${goal.length === 0 ? `0 ${binaries[0]}` : goal.join(' + ')}`,
    'Subject To',
    ...rules.map((rule, i) => ` r${i}: ${rule}`),
    'Binary',
    ` ${binaries.join(' ')}`,
    'End',
  ].join('\n');
  const solved = highs.solve(programme, { mip_rel_gap: 0, mip_abs_gap: 1e-6 });
  if (solved.Status !== 'Optimal') throw new Error(`HiGHS: ${solved.Status}`);
  return solved.ObjectiveValue;
};
