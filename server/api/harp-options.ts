import type { HarpKind } from '../../engine/harp-plan.ts';
import { decline, type Outcome } from '../service-problem.ts';

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

const LONGEST_VALUE = 200;

/** @returns `bad-option` for the first option that is for the other harp than the part's */
export const checkHarpOptions = (
  choice: Readonly<Record<string, unknown>>,
  harp: { readonly kind: HarpKind; readonly name: string },
): Outcome<null> => {
  const other = harp.kind === 'pedal' ? 'lever' : 'pedal';
  const option = OF_ONE_HARP[other].find((name) => choice[name] !== undefined);
  if (option === undefined) return { ok: true, value: null };
  return decline({
    code: 'bad-option',
    option,
    value: (JSON.stringify(choice[option]) ?? '').slice(0, LONGEST_VALUE),
    expected: `it is for the ${other} harp, and this part is for the ${harp.name}; choose another harp with instrument, or leave ${option} out`,
  });
};
