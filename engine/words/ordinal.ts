const ENDINGS: Readonly<Record<string, string>> = { one: 'st', two: 'nd', few: 'rd', other: 'th' };

const RULES = new Intl.PluralRules('en', { type: 'ordinal' });

/** A whole number as it counts times in English: `1st`, `2nd`, `11th`. */
export const nameOrdinal = (number: number): string => `${number}${ENDINGS[RULES.select(number)]}`;
