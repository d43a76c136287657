import { capitalize, formatBeatText, listNames, nameBars, nameExtent } from '../../../engine/index.ts';

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
  places: {
    /** Printed numbers of the first and the last bar. */
    bars: (from: string, until: string) => capitalize(nameBars(from, until)),
    extent: (where: {
      readonly from: string;
      readonly until: string;
      readonly beat: string;
      readonly places: number;
      readonly notes: number;
    }) => nameExtent(where),
    beatInBar: (bar: string, beat: string) => `Bar ${bar}, beat ${formatBeatText(beat)}`,
  },
  /** What stands under a change on the pages of music. */
  inWords: {
    /** @param pedal its letter */
    pedal: (pedal: string, position: string) => `${pedal} to ${position}`,
    feet: { left: 'left foot', right: 'right foot' },
    levers: { up: 'lever up', down: 'lever down' },
    hands: { left: 'left hand', right: 'right hand' },
  },
} as const;
