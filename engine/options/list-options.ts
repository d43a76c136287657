import type { Catalogue, Concerned, Group, NamedOrOwn, Option } from './describe-option.ts';
import type { OptionGroup } from './groups.ts';

/** An option that has a name and a value of its own: members are named after a dot, as `settings.start`. */
export interface ListedOption {
  readonly name: string;
  readonly option: Exclude<Option, Group>;
  readonly harps: Concerned;
  readonly group: OptionGroup;
  /** The option whose own measures it is one of. */
  readonly ownOf: (NamedOrOwn & { readonly name: string }) | null;
}

/** The options of a catalogue in its order, members after what they are members of. */
export const listOptions = (catalogue: Catalogue): readonly ListedOption[] =>
  Object.entries(catalogue).flatMap(([name, option]): ListedOption[] => {
    const { harps, group } = option;
    if (option.kind !== 'group' && option.kind !== 'named-or-own') {
      return [{ name, option, harps, group, ownOf: null }];
    }
    const ownOf = option.kind === 'group' ? null : { ...option, name };
    const members = Object.entries(option.members).map(([member, each]) => ({
      name: `${name}.${member}`,
      option: each,
      harps,
      group,
      ownOf,
    }));
    return option.kind === 'group' ? members : [{ name, option, harps, group, ownOf: null }, ...members];
  });
