import {
  type Choice,
  completeChoice,
  concerns,
  defaultOf,
  formatAmount,
  type HarpKind,
  LEVER_CATALOGUE,
  type ListedOption,
  listOptions,
  PEDAL_CATALOGUE,
  SHARING_CATALOGUE,
  type Values,
} from '../../../../engine/index.ts';
import { OPTION_CATALOGUE, usualWords } from '../../../../render/pure.ts';

/** Every option of the catalogue; each is sent to the service, and most have a control. */
const LISTED = new Map(listOptions(OPTION_CATALOGUE).map((listed) => [listed.name, listed]));

export const listedFor = (harp: HarpKind): readonly ListedOption[] =>
  [...LISTED.values()].filter(({ harps }) => concerns(harps, harp));

/**
 * What the user chose, as controls have it: a word for each option by its name in a query. What is left out is as the
 * level of the player, the language and the catalogue have it for the harp.
 */
export type Choices = Readonly<Partial<Record<string, string>>>;

/** In the place of a name where measures of one's own are chosen. */
export const OWN = 'own';

const usualWord = (choices: Choices, { name, option }: ListedOption, harp: HarpKind): string =>
  usualWords(choices, harp)[name] ?? `${defaultOf(option, harp)}`;

export const chosenOf = (choices: Choices, name: string, harp: HarpKind): string =>
  choices[name] ?? usualWord(choices, LISTED.get(name)!, harp);

/** The values of a list with their words; null where an option is no list. */
export const valuesOf = ({ option }: ListedOption): Readonly<Record<string, string>> | null => {
  switch (option.kind) {
    case 'one-of':
      return option.values;
    case 'named-or-own':
      return { ...option.values, [OWN]: option.own };
    case 'amount':
    case 'amount-or-never': {
      const { offered, unit } = option;
      if (offered === null) return null;
      return Object.fromEntries([
        ...offered.values.map((each) => [`${each}`, offered.words.replace('{}', formatAmount(each, unit))]),
        ...(option.kind === 'amount-or-never' ? [['null', option.never]] : []),
      ]);
    }
    case 'switch':
    case 'text':
      return null;
  }
};

/** Whether a word is one that a control could hold. */
export const isWord = (listed: ListedOption, word: string): boolean => {
  const { option } = listed;
  const values = valuesOf(listed);
  if (values !== null) return Object.hasOwn(values, word);
  switch (option.kind) {
    case 'switch':
      return word === 'true' || word === 'false';
    case 'text':
      return word.length <= option.longest && option.read(word).ok;
    case 'amount':
    case 'amount-or-never': {
      const isNumber = /^\d{1,12}(\.\d{1,3})?$/.test(word);
      return isNumber && Number(word) >= option.least && Number(word) <= option.most;
    }
    default:
      return false;
  }
};

/** Keeps what is known and unlike the default: memory of the browser may hold anything. */
export const cleanChoices = (found: unknown, harp: HarpKind): Choices => {
  if (typeof found !== 'object' || found === null) return {};
  const others = Object.fromEntries(
    ['level', 'language'].flatMap((name) => {
      const word: unknown = Reflect.get(found, name);
      return typeof word === 'string' ? [[name, word]] : [];
    }),
  );
  return Object.fromEntries(
    listedFor(harp).flatMap((listed): [string, string][] => {
      const word: unknown = Reflect.get(found, listed.name);
      const isKept =
        typeof word === 'string' && isWord(listed, word) && word !== usualWord(others, listed, harp);
      return isKept ? [[listed.name, word]] : [];
    }),
  );
};

type Options = Record<string, unknown>;

const meaningOf = ({ option }: ListedOption, word: string): unknown => {
  switch (option.kind) {
    case 'switch':
      return word === 'true';
    case 'amount':
      return Number(word);
    case 'amount-or-never':
      return word === 'null' ? null : Number(word);
    default:
      return word;
  }
};

/**
 * The choices as options of the service: every option that concerns the harp, the defaults too, so that the pages are
 * made by what the page shows.
 */
export const optionsOf = (choices: Choices, harp: HarpKind): Choice<typeof OPTION_CATALOGUE> => {
  const options: Options = {};
  for (const listed of listedFor(harp)) {
    const { name, ownOf } = listed;
    if (ownOf !== null && chosenOf(choices, ownOf.name, harp) !== OWN) continue;
    const meaning = meaningOf(listed, chosenOf(choices, name, harp));
    const [group = '', member] = name.split('.');
    if (member !== undefined)
      options[group] = { ...(options[group] as Options | undefined), [member]: meaning };
    // Measures of one's own follow.
    else if (meaning !== OWN) options[group] = meaning;
  }
  return options;
};

/** The choices that change the plan, as the planner takes them. */
export type PlanChoices = Values<typeof PEDAL_CATALOGUE> & Values<typeof SHARING_CATALOGUE>;

/** What the browser plans by: the very options that the service is sent. */
export const planChoicesOf = (choices: Choices): PlanChoices => {
  const options = optionsOf(choices, 'pedal');
  return {
    ...completeChoice(SHARING_CATALOGUE, options, 'pedal'),
    ...completeChoice(PEDAL_CATALOGUE, options, 'pedal'),
  };
};

/** The same for the levers. */
export type LeverChoices = Values<typeof LEVER_CATALOGUE> & Values<typeof SHARING_CATALOGUE>;

export const leverChoicesOf = (choices: Choices): LeverChoices => {
  const options = optionsOf(choices, 'lever');
  return {
    ...completeChoice(SHARING_CATALOGUE, options, 'lever'),
    ...completeChoice(LEVER_CATALOGUE, options, 'lever'),
  };
};
