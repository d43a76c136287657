import type { HarpKind, HarpProfile } from '../../engine/harp/harps.ts';
import { nameString, parseScordatura, stringsBeyond } from '../../engine/harp/scordatura.ts';

import { decline, type Outcome } from '../service-problem.ts';
import { tellValue } from './tell-value.ts';

/** Options that mean something for one of the harps alone. */
const OF_ONE_HARP: Readonly<Record<HarpKind, readonly string[]>> = {
  pedal: [
    'spelling',
    'keepMarkings',
    'pedalsTogether',
    'crossFeet',
    'footRest',
    'scordatura',
    'weights',
    'pins',
    'settingsAt',
    'settingLook',
    'density',
    'settings',
    'ringChanged',
  ],
  lever: ['tuning', 'leverSeconds', 'leverLook'],
};

type Choice = Readonly<Record<string, unknown>> & { readonly scordatura?: string };

/** @returns `bad-option` for the first option that is for the other harp than the part's, or names a string that it lacks */
export const checkHarpOptions = (choice: Choice, harp: HarpProfile): Outcome<null> => {
  const other = harp.kind === 'pedal' ? 'lever' : 'pedal';
  const option = OF_ONE_HARP[other].find((name) => choice[name] !== undefined);
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
