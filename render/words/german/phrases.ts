export const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

export const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} und ${names.at(-1)}`;

export const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Takt ohne Nummer'
    : from === until
      ? `Takt ${from}`
      : `Takte ${from}–${until}`;

export const inBars = (number: number): string => `in ${count(number, 'Takt', 'Takten')}`;

export const inBar = (number: string): string =>
  number === '' ? 'in einem Takt ohne Nummer' : `in Takt ${number}`;
