import { type Concerned, type Option, unitName } from '../../../engine/index.ts';

const HARPS: Readonly<Record<Concerned, string>> = {
  pedal: 'For the pedal harp. ',
  lever: 'For the lever harp. ',
  both: '',
};

const describeDefault = (option: Option): string => {
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
export const describeOption = (option: Option, harps: Concerned): string =>
  `${HARPS[harps]}${option.description}${describeDefault(option)}`;
