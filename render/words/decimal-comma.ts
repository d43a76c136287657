/** A number as it is written where a comma divides it. */
export const withComma = (value: number, digits: number): string => value.toFixed(digits).replace('.', ',');

/** The same with as many digits as the number has. */
export const exactWithComma = (value: number): string => `${value}`.replace('.', ',');
