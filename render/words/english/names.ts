import {
  capitalize,
  formatBeatText,
  listNames,
  nameBars,
  nameExtent,
  uncapitalize,
} from '../../../engine/index.ts';

export const NAMES_WORDS = {
  notes: {
    positions: { flat: 'flat', natural: 'natural', sharp: 'sharp' },
    list: (names: readonly string[]) => listNames(names),
    /** @param tonic its name */
    major: (tonic: string) => `${tonic} major`,
    minor: (tonic: string) => `${tonic} minor`,
    /** The tonic of a minor key where it stands alone. */
    minorTonic: (tonic: string) => tonic,
  },
  feet: { left: 'left', right: 'right' },
  footHeads: { left: 'Left foot', right: 'Right foot' },
  labelled: (label: string, text: string) => `${label}: ${text}`,
  /** A sentence that follows a label. */
  afterLabel: (sentence: string) => uncapitalize(sentence),
  places: {
    /** Printed numbers of the first and the last bar. */
    bars: (from: string, until: string) => capitalize(nameBars(from, until)),
    /** @param count of a single place, as it is counted aloud */
    extent: ({
      count,
      ...where
    }: {
      readonly from: string;
      readonly until: string;
      readonly count: string;
      readonly places: number;
      readonly notes: number;
    }) =>
      where.places === 1
        ? `${nameBars(where.from, where.from)}, count ${count}`
        : nameExtent({ ...where, beat: '' }),
    beatInBar: (bar: string, beat: string) => `Bar ${bar}, beat ${formatBeatText(beat)}`,
  },
  /** What stands under a change on the pages of music. */
  inWords: {
    /** @param pedal its letter */
    pedal: (pedal: string, position: string) => `${pedal} to ${position}`,
    /** Which time of a repeat a marking is for. */
    times: { first: '1st time', second: '2nd time', later: 'later times' },
    feet: { left: 'left foot', right: 'right foot' },
    /** Of a lever: as narrow as the name over them. */
    levers: { up: 'up', down: 'down' },
    hands: { left: 'left hand', right: 'right hand' },
    /** Under a letter that does not stand at its note, among others that do. */
    here: 'foot here',
  },
} as const;
