import {
  type Concerned,
  type DecisionPin,
  type HarpProfile,
  harpOfPin,
  nameString,
  parseScordatura,
  stringsOutOfRange,
} from '../../../engine/index.ts';
import { OPTION_CATALOGUE } from '../../../render/pure.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import { DECISION_HARPS } from './decisions.ts';
import { quoteValue } from './quote-value.ts';

/** For which harps each option means something. */
const CONCERNED: Readonly<Record<string, Concerned>> = {
  ...Object.fromEntries(Object.entries(OPTION_CATALOGUE).map(([name, { harps }]) => [name, harps])),
  ...DECISION_HARPS,
};

type Choice = Readonly<Record<string, unknown>> & {
  readonly scordatura?: string;
  readonly pins?: readonly { readonly kind: DecisionPin['kind'] }[];
};

/** @returns `bad-option` for the first option that is for the other harp than the part's, or names a string that it lacks */
export const checkHarpOptions = (choice: Choice, harp: HarpProfile): Outcome<null> => {
  const other = harp.kind === 'pedal' ? 'lever' : 'pedal';
  const option = Object.keys(CONCERNED).find(
    (name) => CONCERNED[name] === other && asksAnything(choice[name]),
  );
  if (option === undefined) {
    const pins = checkPins(choice.pins ?? [], harp);
    return pins.ok ? checkScordatura(choice.scordatura ?? '', harp) : pins;
  }
  return fail({
    code: 'bad-option',
    option,
    value: quoteValue(choice[option]),
    expected: `it applies to a ${other} harp only, and this part is for the ${harp.name}. Choose another harp with the option instrument, or leave out ${option}`,
  });
};

/** A list of nothing asks nothing of any harp: so all lists of decisions can be told whatever the harp is. */
const asksAnything = (value: unknown): boolean =>
  value !== undefined && !(Array.isArray(value) && value.length === 0);

const checkPins = (
  pins: readonly { readonly kind: DecisionPin['kind'] }[],
  harp: HarpProfile,
): Outcome<null> => {
  const index = pins.findIndex(({ kind }) => ![harp.kind, 'both'].includes(harpOfPin(kind)));
  if (index < 0) return { ok: true, value: null };
  const other = harp.kind === 'pedal' ? 'lever' : 'pedal';
  return fail({
    code: 'bad-option',
    option: `pins.${index}.kind`,
    value: quoteValue(pins[index]!.kind),
    expected: `it applies to a ${other} harp only, and this part is for the ${harp.name}`,
  });
};

const checkScordatura = (text: string, harp: HarpProfile): Outcome<null> => {
  const tuned = parseScordatura(text);
  const [beyond] = tuned.ok ? stringsOutOfRange(tuned.value, harp) : [];
  if (beyond === undefined) return { ok: true, value: null };
  return fail({
    code: 'bad-option',
    option: 'scordatura',
    value: text,
    expected: `the harp (${harp.name}) has no string ${beyond}. Its lowest string is ${nameString(harp.lowest)}, its highest ${nameString(harp.highest)}`,
  });
};
