/** Length of a tremolo's stroke in quarter notes: the marks go with the note's own flags (common practice; MusicXML 4.0, `tremolo`). */
export const strokeQuarters = (writtenQuarters: number, marks: number): number => {
  const flags = writtenQuarters > 0 && writtenQuarters < 1 ? Math.ceil(-Math.log2(writtenQuarters)) : 0;
  return 1 / 2 ** (Math.max(1, marks) + flags);
};
