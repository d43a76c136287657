import type { Concerned, Option } from '../../engine/options/describe-option.ts';
import { unitName } from '../../engine/options/units.ts';

const HARPS: Readonly<Record<Concerned, string>> = {
  pedal: 'For the pedal harp. ',
  lever: 'For the lever harp. ',
  both: '',
};

const tellDefault = (option: Option): string => {
  switch (option.kind) {
    case 'group':
      return '';
    case 'one-of': {
      const { leverDefault } = option;
      const lever = leverDefault === undefined ? '' : `, ${leverDefault} for a lever harp`;
      return ` ${option.default} if not given${lever}.`;
    }
    case 'text':
      return option.default === '' ? '' : ` ${option.default} if not given.`;
    case 'amount':
    case 'amount-or-never': {
      const unit = unitName(option.unit);
      return unit === null
        ? ` ${option.default} if not given.`
        : ` In ${unit}, ${option.default} if not given.`;
    }
    case 'switch':
    case 'named-or-own':
      return ` ${option.default} if not given.`;
  }
};

/** What an option does, in which unit, and what holds where it is not given; which harp it is for, where it is for one. */
export const tellOption = (option: Option, harps: Concerned): string =>
  `${HARPS[harps]}${option.description}${tellDefault(option)}`;
