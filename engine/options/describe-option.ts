import type { HarpProfile } from '../harp/harps.ts';
import type { Result } from '../problem.ts';
import type { OptionGroup } from './groups.ts';
import type { Unit } from './units.ts';

/**
 * How an option is described: as plain data, once. Types, defaults, the checks of requests, their description for
 * programs, the help of the command line and the controls of the page are all made of it.
 */
interface Words {
  /** What a control for it says; null where there is none. */
  readonly label: string | null;
  /** A sentence or two, for those who write a request or a command. */
  readonly description: string;
}

/** One of several words. */
export interface OneOf<V extends string = string> extends Words {
  readonly kind: 'one-of';
  /** Every value that it takes, and what a control calls it. */
  readonly values: Readonly<Record<V, string>>;
  readonly default: V;
  /** What is usual for the lever harp, where that is something else. */
  readonly leverDefault?: V;
}

/** Yes or no. */
export interface Switch extends Words {
  readonly kind: 'switch';
  readonly default: boolean;
}

/** What every option with a number says of it. */
interface Range {
  readonly unit: Unit;
  readonly least: number;
  readonly most: number;
  /** Only multiples of this: 1 for whole numbers; null where any number will do. */
  readonly step: number | null;
  /** Some usual numbers, for a control that is a list; `{}` stands for the number with its unit. */
  readonly offered: { readonly values: readonly number[]; readonly words: string } | null;
}

/** An option that is a number in a range. */
export interface Amount extends Words, Range {
  readonly kind: 'amount';
  readonly default: number;
}

/** A number, or null for never. */
export interface AmountOrNever extends Words, Range {
  readonly kind: 'amount-or-never';
  readonly default: number | null;
  /** What a control calls it where it is null. */
  readonly never: string;
}

/** Something that is written, and read by a grammar of its own. */
export interface Text<V = unknown> extends Words {
  readonly kind: 'text';
  readonly default: string;
  /** In characters. */
  readonly longest: number;
  readonly read: (text: string) => Result<V>;
  /** What is to be written, as the end of a sentence. */
  readonly expected: string;
  readonly examples: readonly string[];
}

/** What may be a member of another option. */
export type Member = OneOf | Switch | Amount | AmountOrNever;

/** Several that belong together; each can be given alone. */
export interface Group<M extends Readonly<Record<string, Member>> = Readonly<Record<string, Member>>> {
  readonly kind: 'group';
  readonly description: string;
  readonly members: M;
}

/** Something by name, or by measures of one's own, which are given together. */
export interface NamedOrOwn<
  V extends string = string,
  M extends Readonly<Record<string, Amount>> = Readonly<Record<string, Amount>>,
> extends Words {
  readonly kind: 'named-or-own';
  readonly values: Readonly<Record<V, string>>;
  readonly default: V;
  /** What a control calls measures of one's own. */
  readonly own: string;
  readonly members: M;
}

/** Any option, without its place in a catalogue. */
export type Option = Member | Text | Group | NamedOrOwn;

/** For which harps an option means something. */
export type Concerned = HarpProfile['kind'] | 'both';

export interface OptionPlace {
  readonly harps: Concerned;
  readonly group: OptionGroup;
}

/** Options by name, as requests name them. */
export type Catalogue = Readonly<Record<string, Option & OptionPlace>>;

type Without<O> = Omit<O, 'kind'>;

/** The values say which words there are; a default is one of them. */
type WithDefault<O, V extends string> = Omit<O, 'kind' | 'default' | 'leverDefault'> & {
  readonly default: NoInfer<V>;
};

/** Describes an option that is one of several words. */
export const oneOf = <const V extends string>(
  option: WithDefault<OneOf<V>, V> & { readonly leverDefault?: NoInfer<V> },
): OneOf<V> => ({ kind: 'one-of', ...option });

/** Describes an option that is on or off. */
export const yesOrNo = (option: Without<Switch>): Switch => ({ kind: 'switch', ...option });

/** Describes an option that is a number. */
export const amount = (option: Without<Amount>): Amount => ({ kind: 'amount', ...option });

/** Describes an option that is a number, or null for never. */
export const amountOrNever = (option: Without<AmountOrNever>): AmountOrNever => ({
  kind: 'amount-or-never',
  ...option,
});

/** Describes an option that is any text. */
export const text = <V>(option: Without<Text<V>>): Text<V> => ({ kind: 'text', ...option });

/** Describes several options that belong together. */
export const group = <const M extends Readonly<Record<string, Member>>>(
  description: string,
  members: M,
): Group<M> => ({ kind: 'group', description, members });

/** Describes something by name, or by measures of one’s own. */
export const namedOrOwn = <const V extends string, const M extends Readonly<Record<string, Amount>>>(
  option: WithDefault<NamedOrOwn<V, M>, V>,
): NamedOrOwn<V, M> => ({ kind: 'named-or-own', ...option });

/** An option with its place in a catalogue. */
export const entry = <O extends Option>(
  harps: Concerned,
  group: OptionGroup,
  option: O,
): O & OptionPlace => ({
  ...option,
  harps,
  group,
});

/** What is given for an option. */
export type ValueOf<O> =
  O extends OneOf<infer V>
    ? V
    : O extends Switch
      ? boolean
      : O extends Amount
        ? number
        : O extends AmountOrNever
          ? number | null
          : O extends Text
            ? string
            : O extends Group<infer M>
              ? { readonly [K in keyof M]: ValueOf<M[K]> }
              : O extends NamedOrOwn<infer V, infer M>
                ? V | { readonly [K in keyof M]: number }
                : never;

/** What may be given for an option: of a group, some. */
export type GivenOf<O> = O extends Group ? Partial<ValueOf<O>> : ValueOf<O>;

/** A value for every option of a catalogue. */
export type Values<C extends Catalogue> = { readonly [K in keyof C]: ValueOf<C[K]> };

/** What a user chose of a catalogue; what is left out is as described there. */
export type Choice<C extends Catalogue> = { readonly [K in keyof C]?: GivenOf<C[K]> };
