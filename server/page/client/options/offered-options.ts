import {
  type HarpKind,
  type ListedOption,
  OPTION_GROUPS,
  type OptionGroup,
} from '../../../../engine/index.ts';
import { listedFor } from './choices.ts';

/** What is chosen beside the downloads that it is for, not among the options. */
export const BESIDE_DOWNLOADS: OptionGroup = 'study';

/** What has controls under one heading. */
export interface OfferedGroup {
  readonly group: OptionGroup;
  readonly heading: string;
  readonly options: readonly ListedOption[];
}

/** The options that have a control, for a harp, by what they are about. */
export const groupsFor = (harp: HarpKind): readonly OfferedGroup[] =>
  Object.entries(OPTION_GROUPS)
    .map(([name, heading]) => {
      const group = name as OptionGroup;
      const options = listedFor(harp).filter((each) => each.group === group && each.option.label !== null);
      return { group, heading, options };
    })
    .filter(({ options }) => options.length > 0);

/** What is chosen for study sheets: also for whom they are, which is an option of the pages on the stand too. */
export const studyOptionsFor = (harp: HarpKind): readonly ListedOption[] =>
  listedFor(harp).filter(
    ({ name, group, option }) => name === 'level' || (group === BESIDE_DOWNLOADS && option.label !== null),
  );
