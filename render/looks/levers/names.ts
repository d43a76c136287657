import { notesInNeedLater } from '../../markings/needed-later.ts';
import type { LeverLook } from '../look.ts';

/** Changes by the names of what their strings give from there on. */
export const NAMES: LeverLook = {
  words: { label: 'as names', meaning: 'names between the staves' },
  kind: 'lever-change',
  mark: (moves) => ({
    kind: 'lever-change',
    changes: moves.map(({ string, alter, hand }) => ({ string, alter, hand })),
    inWords: [],
    neededLaterBy: notesInNeedLater(moves),
  }),
};
