import type { Side } from '../../harp/side.ts';
import { spanOf } from '../../sounding/need-span.ts';
import type { Moments } from '../../time/moments.ts';
import type { MoveWindow } from '../../time/window.ts';
import type { PitchNeed } from './asked.ts';

/**
 * Between which of its notes a hand is away from the strings: in printed order, the last that it begins before a
 * moment, and the first from it on.
 *
 * @returns a function of hand and moment; linear to make, and at once to ask
 */
export const findHandsAway = (
  asked: readonly PitchNeed[],
  moments: Moments,
): ((hand: Side, moment: number) => MoveWindow) => {
  const of = (hand: Side) => {
    const count = moments.all.length;
    const starting = new Array<PitchNeed | undefined>(count);
    for (const each of asked) {
      if (each.hand !== hand || each.kind === 'slid') continue;
      starting[spanOf(each, moments).first] ??= each;
    }
    const before = [...starting];
    const after = [...starting];
    for (let i = 1; i < count; i += 1) before[i] ??= before[i - 1];
    for (let i = count - 2; i >= 0; i -= 1) after[i] ??= after[i + 1];
    return { before, after };
  };
  const hands = { left: of('left'), right: of('right') };
  const placeOf = (need: PitchNeed | undefined): MoveWindow['after'] =>
    need === undefined ? null : { note: need.note.id, onset: need.onset };
  return (hand, moment) => ({
    after: placeOf(hands[hand].before[moment - 1]),
    before: placeOf(hands[hand].after[moment]),
  });
};
