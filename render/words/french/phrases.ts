export const count = (number: number, one: string, several: string): string =>
  `${number} ${number < 2 ? one : several}`;

export const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} et ${names.at(-1)}`;

export const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Mesure sans numéro'
    : from === until
      ? `Mesure ${from}`
      : `Mesures ${from}–${until}`;

export const inBars = (number: number): string => `dans ${count(number, 'mesure', 'mesures')}`;

export const inBar = (number: string): string =>
  number === '' ? 'dans une mesure sans numéro' : `à la mesure ${number}`;
