import { footOf, isSetting, type Letter, type Position, type Side } from '../../engine/index.ts';
import type { PedalChange } from './markings.ts';
import type { PrintedMarking } from './printed-markings.ts';

type PedalMarking = Extract<PrintedMarking, { readonly kind: 'setting' | 'change' }>;

/** A marking that says where pedals stand, whatever was planned: a full setting where it names all seven. */
export const statedMarking = (
  place: Pick<PedalMarking, 'id' | 'at' | 'bar' | 'beat'>,
  positions: readonly (readonly [Letter, Position])[],
): PedalMarking => {
  const always = { ...place, graceNote: null, onReturn: [], inWords: [], timesPlayed: 1 };
  const setting = Object.fromEntries(positions);
  if (isSetting(setting))
    return {
      ...always,
      kind: 'setting',
      setting,
      changed: [],
      moved: [],
      firstTimeOnly: false,
      withNote: false,
    };
  const of = (foot: Side): readonly PedalChange[] =>
    positions
      .filter(([letter]) => footOf(letter) === foot)
      .map(([letter, position]) => ({ letter, position }));
  return {
    ...always,
    kind: 'change',
    left: of('left'),
    right: of('right'),
    withNote: false,
    lettersWithNote: [],
    neededLaterBy: null,
    cannotWait: [],
  };
};
