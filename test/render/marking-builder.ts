/** What markings of a part that is played once through have in common. */
export const ONCE = { onReturn: [], inWords: [], timesPlayed: 1 } as const;

export const PLAIN_CHANGE = {
  ...ONCE,
  withNote: false,
  lettersWithNote: [],
  neededLaterBy: null,
  cannotWait: [],
} as const;

export const PLAIN_SETTING = { ...ONCE, moved: [], firstTimeOnly: false, withNote: false } as const;
