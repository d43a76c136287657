import type { HarpProfile } from '../harp/harps.ts';
import type {
  Catalogue,
  Choice,
  Concerned,
  Member,
  Option,
  Text,
  ValueOf,
  Values,
} from './describe-option.ts';

type Json = Readonly<Record<string, unknown>>;

/** The value of an option where none is chosen. */
export const defaultOf = (option: Option, harp: HarpProfile['kind']): unknown => {
  if (option.kind === 'group') {
    return Object.fromEntries(
      Object.entries(option.members).map(([name, member]) => [name, defaultOf(member, harp)]),
    );
  }
  if (option.kind === 'one-of' && harp === 'lever') return option.leverDefault ?? option.default;
  return option.default;
};

/** The values of several options where none is chosen. */
export const defaultsOf = <M extends Readonly<Record<string, Member>>>(
  members: M,
): { readonly [K in keyof M]: ValueOf<M[K]> } =>
  Object.fromEntries(Object.entries(members).map(([name, member]) => [name, defaultOf(member, 'pedal')])) as {
    [K in keyof M]: ValueOf<M[K]>;
  };

/**
 * A value for every option of a catalogue: the one that was chosen, else the one that is usual for the harp. What a
 * choice holds beside the options of the catalogue is passed over.
 */
export const completeChoice = <C extends Catalogue>(
  catalogue: C,
  choice: Choice<C>,
  harp: HarpProfile['kind'],
): Values<C> =>
  Object.fromEntries(
    Object.entries(catalogue).map(([name, option]) => {
      const chosen: unknown = (choice as Json)[name];
      const usual = defaultOf(option, harp);
      if (chosen === undefined) return [name, usual];
      return [name, option.kind === 'group' ? { ...(usual as Json), ...(chosen as Json) } : chosen];
    }),
  ) as Values<C>;

/** What a choice holds of a catalogue, and nothing else. */
export const pickChoice = <C extends Catalogue>(catalogue: C, choice: Choice<C>): Choice<C> =>
  Object.fromEntries(Object.entries(choice).filter(([name]) => Object.hasOwn(catalogue, name))) as Choice<C>;

/** What a text says that was checked when it was chosen. */
export const readChosen = <V>(option: Text<V>, chosen: string): V => {
  const read = option.read(chosen);
  if (!read.ok) throw new Error(`${chosen} has passed as ${option.expected}`);
  return read.value;
};

export const concerns = (harps: Concerned, harp: HarpProfile['kind']): boolean =>
  harps === 'both' || harps === harp;
