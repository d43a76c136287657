import type { HarpProfile } from '../../engine/harp/harps.ts';
import { nameString, parseScordatura, stringsBeyond } from '../../engine/harp/scordatura.ts';
import type { Concerned } from '../../engine/options/describe-option.ts';
import { OPTION_CATALOGUE } from '../../render/option-catalogue.ts';
import { decline, type Outcome } from '../service-problem.ts';
import { tellValue } from './tell-value.ts';
import { WORK_HARPS } from './work.ts';

/** For which harps each option means something. */
const CONCERNED: Readonly<Record<string, Concerned>> = {
  ...Object.fromEntries(Object.entries(OPTION_CATALOGUE).map(([name, { harps }]) => [name, harps])),
  ...WORK_HARPS,
};

type Choice = Readonly<Record<string, unknown>> & { readonly scordatura?: string };

/** @returns `bad-option` for the first option that is for the other harp than the part's, or names a string that it lacks */
export const checkHarpOptions = (choice: Choice, harp: HarpProfile): Outcome<null> => {
  const other = harp.kind === 'pedal' ? 'lever' : 'pedal';
  const option = Object.keys(CONCERNED).find(
    (name) => CONCERNED[name] === other && choice[name] !== undefined,
  );
  if (option === undefined) return checkScordatura(choice.scordatura ?? '', harp);
  return decline({
    code: 'bad-option',
    option,
    value: tellValue(choice[option]),
    expected: `it is for the ${other} harp, and this part is for the ${harp.name}; choose another harp with instrument, or leave ${option} out`,
  });
};

const checkScordatura = (text: string, harp: HarpProfile): Outcome<null> => {
  const tuned = parseScordatura(text);
  const [beyond] = tuned.ok ? stringsBeyond(tuned.value, harp) : [];
  if (beyond === undefined) return { ok: true, value: null };
  return decline({
    code: 'bad-option',
    option: 'scordatura',
    value: text,
    expected: `the harp (${harp.name}) has no string ${beyond}; its lowest is ${nameString(harp.lowest)}, its highest ${nameString(harp.highest)}`,
  });
};
