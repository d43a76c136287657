import type { LeverMove } from '../../../engine/index.ts';
import type { LeverNameChange } from '../../levers/lever-change.ts';
import { notesInNeedLater } from '../../markings/needed-later.ts';
import type { LeverLook } from '../look.ts';

/** Changes by the names of what their strings give from there on. */
export const NAMES: LeverLook = {
  words: { label: 'as names', meaning: 'names between the staves' },
  kind: 'lever-change',
  mark: (moves) => ({
    kind: 'lever-change',
    changes: changesOf(moves.filter(({ restores }) => !restores)),
    onReturn: changesOf(moves.filter(({ restores }) => restores)),
    atOneTime: [],
    inWords: [],
    neededLaterBy: notesInNeedLater(moves),
  }),
};

const changesOf = (moves: readonly LeverMove[]): readonly LeverNameChange[] =>
  moves.map(({ string, alter, hand }) => ({ string, alter, hand }));
