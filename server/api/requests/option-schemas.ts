import * as z from 'zod';
import {
  type Amount,
  type AmountOrNever,
  type Catalogue,
  type Concerned,
  type GivenOf,
  type Group,
  type Member,
  type NamedOrOwn,
  namesIn,
  type Option,
  type Text,
  unitName,
} from '../../../engine/index.ts';
import { describeOption } from './option-description.ts';

/** Words that name something: not blank. @param expected what they name, after “it must be” */
export const nameOf = (expected: string, longest: number) =>
  z
    .string()
    .max(longest)
    .refine((written) => written.trim() !== '', `it must be ${expected}`);

const wordsOf = (values: Readonly<Record<string, string>>) => z.enum(namesIn(values));

const numberOf = ({ least, most, step }: Amount | AmountOrNever) => {
  const within = (step === 1 ? z.int() : z.number()).min(least).max(most);
  return step === null || step === 1 ? within : within.multipleOf(step);
};

const textOf = ({ longest, read, expected, examples }: Text) =>
  z
    .string()
    .max(longest)
    .refine((written) => read(written).ok, `it must be ${expected}`)
    .meta({ examples: [...examples] });

const memberOf = (option: Member): z.ZodType => {
  switch (option.kind) {
    case 'one-of': {
      const words = wordsOf(option.values);
      // What holds where it is not given differs from harp to harp: the description says so.
      return option.leverDefault === undefined ? words.meta({ default: option.default }) : words;
    }
    case 'switch':
      return z.boolean().meta({ default: option.default });
    case 'amount':
      return numberOf(option).meta({ default: option.default });
    case 'amount-or-never':
      return numberOf(option).nullable().meta({ default: option.default });
  }
};

/** A group has a name in the description for programs: `Weights`. */
const groupOf = (name: string, { members, description }: Group, harps: Concerned) =>
  z
    .strictObject(
      Object.fromEntries(
        Object.entries(members).map(([each, member]) => [
          each,
          memberOf(member)
            .exactOptional()
            .meta({ description: describeOption(member, harps) }),
        ]),
      ),
    )
    .meta({ id: name.replace(/^[a-z]/, (first) => first.toUpperCase()), description });

/** Measures of one's own are given together. */
const ownOf = ({ members }: NamedOrOwn) =>
  z.strictObject(
    Object.fromEntries(
      Object.entries(members).map(([name, member]) => [
        name,
        numberOf(member).meta({ description: `${member.description} In ${unitName(member.unit)}.` }),
      ]),
    ),
  );

const schemaOf = (name: string, option: Option, harps: Concerned): z.ZodType => {
  switch (option.kind) {
    case 'group':
      return groupOf(name, option, harps);
    case 'named-or-own':
      return z.union([wordsOf(option.values), ownOf(option)]).meta({ default: option.default });
    case 'text':
      return textOf(option);
    default:
      return memberOf(option);
  }
};

/** Options as members of a request; all may be left out. */
export type OptionShape<C extends Catalogue> = {
  readonly [K in keyof C]: z.ZodExactOptional<z.ZodType<GivenOf<C[K]>>>;
};

/** What a request may hold of a catalogue, with the description of each option. */
export const shapeOf = <C extends Catalogue>(catalogue: C): OptionShape<C> =>
  Object.fromEntries(
    Object.entries(catalogue).map(([name, option]) => [
      name,
      schemaOf(name, option, option.harps)
        .exactOptional()
        .meta({ description: describeOption(option, option.harps) }),
    ]),
  ) as OptionShape<C>;
