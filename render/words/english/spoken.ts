/** What is said of drawings and pages to those who do not see them. */
export const SPOKEN_WORDS = {
  /** @param names of all pedals, the feet divided */
  setting: (names: string) => `Pedal setting ${names}`,
  change: (names: string) => `Pedal change ${names}`,
  leverChange: (names: string) => `Lever change ${names}`,
  /** What moves at one moment. */
  together: (names: readonly string[]) => names.join(' and '),
  withNote: 'with the note',
  /** A place of the list of what is not playable. */
  place: (number: number) => `Place ${number}`,
  toWrite: 'To be written in',
  /** @param page from 1 */
  page: (title: string, page: number) => `${title}, page ${page}`,
  engravedBy: (program: string) => `Engraved by ${program}`,
} as const;
