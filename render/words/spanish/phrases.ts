export const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

export const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} y ${names.at(-1)}`;

export const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Compás sin número'
    : from === until
      ? `Compás ${from}`
      : `Compases ${from}–${until}`;

export const inBars = (number: number): string => `en ${count(number, 'compás', 'compases')}`;

export const inBar = (number: string): string =>
  number === '' ? 'en un compás sin número' : `en el compás ${number}`;
