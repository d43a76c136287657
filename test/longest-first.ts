import { BaseSequencer, type TestSpecification } from 'vitest/node';

/**
 * Of each project the files that are named begin before all others, so that none of them is left to run alone at the end.
 *
 * @param long parts of paths of files that take long
 */
export const longestFirst = (long: readonly string[]): typeof BaseSequencer =>
  class extends BaseSequencer {
    override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
      const isLong = ({ moduleId }: TestSpecification): boolean =>
        long.some((path) => moduleId.includes(path));
      const sorted = await super.sort(files);
      const projects = [...new Set(sorted.map(({ project }) => project))];
      return projects.flatMap((project) => {
        const own = sorted.filter((file) => file.project === project);
        return [...own.filter(isLong), ...own.filter((file) => !isLong(file))];
      });
    }
  };
