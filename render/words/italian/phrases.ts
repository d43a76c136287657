export const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

export const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} e ${names.at(-1)}`;

export const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Battuta senza numero'
    : from === until
      ? `Battuta ${from}`
      : `Battute ${from}–${until}`;

export const inBars = (number: number): string => `in ${count(number, 'battuta', 'battute')}`;

export const inBar = (number: string): string =>
  number === '' ? 'in una battuta senza numero' : `a battuta ${number}`;
