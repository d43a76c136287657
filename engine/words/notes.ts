/** A note by its pitch: `D♯2`, or `grace note D♯2`, so that it is not taken for the note that it leads to. */
export const callNote = (pitch: string, isGrace: boolean): string =>
  isGrace ? `grace note ${pitch}` : pitch;
