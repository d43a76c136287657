import type { EngravingOptions } from '../../../render/engraving-options.ts';
import { STRINGS } from '../strings.ts';

type ChosenOption = Extract<
  keyof EngravingOptions,
  'settingLook' | 'naming' | 'placement' | 'density' | 'paper' | 'staffMm' | 'stringColours'
>;

/** The options of the look that the page offers, in order; each value is a word of the service's query. */
export const CHOICE_NAMES = Object.keys(STRINGS.choices.names) as ChosenOption[];

/** What the user chose; what is left out is as the service has it by default. */
export type Choices = Readonly<Partial<Record<ChosenOption, string>>>;

export const DEFAULTS: Readonly<Record<ChosenOption, string>> = {
  settingLook: 'diagram',
  naming: 'english',
  placement: 'below',
  density: 'both',
  paper: 'a4',
  staffMm: '7',
  stringColours: 'none',
};

export const valuesOf = (name: ChosenOption): Readonly<Record<string, string>> =>
  STRINGS.choices.values[name];

/** Keeps what is known and unlike the default: memory of the browser may hold anything. */
export const cleanChoices = (found: unknown): Choices => {
  if (typeof found !== 'object' || found === null) return {};
  const entries = CHOICE_NAMES.map((name) => [name, Reflect.get(found, name)] as const);
  return Object.fromEntries(
    entries.filter(
      ([name, value]) =>
        typeof value === 'string' && Object.hasOwn(valuesOf(name), value) && value !== DEFAULTS[name],
    ),
  );
};

const MEMORY = 'tringle-choices';

export const recallChoices = (): Choices => {
  try {
    return cleanChoices(JSON.parse(localStorage.getItem(MEMORY) ?? '{}'));
  } catch {
    // Memory that is shut off or spoilt remembers nothing.
    return {};
  }
};

export const rememberChoices = (choices: Choices): void => {
  try {
    localStorage.setItem(MEMORY, JSON.stringify(choices));
  } catch {
    // Memory is full or shut off: the choice holds until the page is left.
  }
};
