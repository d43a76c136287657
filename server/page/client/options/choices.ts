import { parseScordatura } from '../../../../engine/harp/scordatura.ts';
import { PAPER_MM_LIMITS } from '../../../../render/engraving-options.ts';
import { STRINGS } from '../../strings.ts';

/** Every choice that the page offers, as it stands at first. Names with a dot are those of the service's query. */
export const DEFAULTS = {
  settingLook: 'diagram',
  naming: 'english',
  placement: 'below',
  density: 'both',
  ringChanged: 'false',
  numberImpossible: 'true',
  'settings.start': 'true',
  'settings.rehearsalMarks': 'true',
  'settings.glissandi': 'true',
  'settings.threeChanges': 'true',
  'settings.systemStart': 'false',
  'settings.pageStart': 'false',
  'settings.afterRestBars': '4',
  paper: 'a4',
  paperWidth: '210',
  paperHeight: '297',
  staffMm: '7',
  pageTurns: 'right-hand-pages',
  keepBreaks: 'false',
  condenseRests: 'true',
  stringColours: 'none',
  respelled: 'plain',
  spelling: 'keep',
  inFile: 'replaced',
  footRest: '0.25',
  pedalsTogether: 'false',
  crossFeet: 'false',
  scordatura: '',
} as const;

export type ChoiceName = keyof typeof DEFAULTS;

/** What the user chose; what is left out is as the service has it by default. */
export type Choices = Readonly<Partial<Record<ChoiceName, string>>>;

const NAMES = Object.keys(DEFAULTS) as ChoiceName[];

/** What kind of thing is chosen: one of a list, yes or no, a length in millimetres, or strings with cents. */
export type ChoiceKind = 'list' | 'switch' | 'length' | 'strings';

export const kindOf = (name: ChoiceName): ChoiceKind => {
  if (name === 'paperWidth' || name === 'paperHeight') return 'length';
  if (name === 'scordatura') return 'strings';
  return DEFAULTS[name] === 'true' || DEFAULTS[name] === 'false' ? 'switch' : 'list';
};

/** The values of a list with their words. */
export const valuesOf = (name: ChoiceName): Readonly<Record<string, string>> =>
  (STRINGS.choices.values as Readonly<Partial<Record<ChoiceName, Readonly<Record<string, string>>>>>)[name] ??
  {};

export const chosenOf = (choices: Choices, name: ChoiceName): string => choices[name] ?? DEFAULTS[name];

const isValue = (name: ChoiceName, value: string): boolean => {
  switch (kindOf(name)) {
    case 'list':
      return Object.hasOwn(valuesOf(name), value);
    case 'switch':
      return value === 'true' || value === 'false';
    case 'strings':
      return parseScordatura(value).ok;
    case 'length': {
      const isNumber = /^\d{1,4}(\.\d)?$/.test(value);
      return isNumber && Number(value) >= PAPER_MM_LIMITS.least && Number(value) <= PAPER_MM_LIMITS.most;
    }
  }
};

/** Keeps what is known and unlike the default: memory of the browser may hold anything. */
export const cleanChoices = (found: unknown): Choices => {
  if (typeof found !== 'object' || found === null) return {};
  const entries = NAMES.map((name) => [name, Reflect.get(found, name) as unknown] as const);
  return Object.fromEntries(
    entries.filter(
      ([name, value]) => typeof value === 'string' && isValue(name, value) && value !== DEFAULTS[name],
    ),
  );
};

/** What a word of a choice means to the service. */
const meaningOf = (word: string): string | number | boolean | null => {
  const isPlain = /^(\d+(\.\d+)?|true|false|null)$/.test(word);
  return isPlain ? (JSON.parse(word) as number | boolean | null) : word;
};

type Options = Record<string, unknown>;

/** Names with a dot are members of what stands before it. */
const nest = (words: Readonly<Record<string, string>>): Options => {
  const options: Options = {};
  for (const [name, word] of Object.entries(words)) {
    const [group = '', member] = name.split('.');
    const known = options[group] as Options | undefined;
    options[group] = member === undefined ? meaningOf(word) : { ...known, [member]: meaningOf(word) };
  }
  return options;
};

const paperOf = (choices: Choices): Options => {
  if (choices.paper !== 'own') return choices.paper === undefined ? {} : { paper: choices.paper };
  const [widthMm, heightMm] = (['paperWidth', 'paperHeight'] as const).map((name) =>
    Number(chosenOf(choices, name)),
  );
  return { paper: { widthMm, heightMm } };
};

/** The choices as options of the service. */
export const optionsOf = (choices: Choices): Options => {
  const { paper: _paper, paperWidth: _width, paperHeight: _height, inFile, ...plain } = choices;
  return {
    ...nest(plain),
    ...paperOf(choices),
    ...(inFile === 'beside' ? { fileMarkings: true } : {}),
    ...(inFile === 'pins' ? { keepMarkings: true } : {}),
  };
};

/** The choices that change the plan, as the planner takes them. */
export interface PlanChoices {
  readonly spelling: 'keep' | 'suggest' | 'free';
  readonly keepMarkings: boolean;
  readonly pedalsTogether: boolean;
  readonly crossFeet: boolean;
  readonly footRestSeconds: number;
  /** Strings tuned away from their pitch, with cents. */
  readonly scordatura: string;
}

export const planChoicesOf = (choices: Choices): PlanChoices => ({
  spelling: chosenOf(choices, 'spelling') as PlanChoices['spelling'],
  keepMarkings: chosenOf(choices, 'inFile') === 'pins',
  pedalsTogether: chosenOf(choices, 'pedalsTogether') === 'true',
  crossFeet: chosenOf(choices, 'crossFeet') === 'true',
  footRestSeconds: Number(chosenOf(choices, 'footRest')),
  scordatura: chosenOf(choices, 'scordatura'),
});
