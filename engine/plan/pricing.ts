import type { Rational } from '../music/rational.ts';
import { compare, subtract, toNumber } from '../music/rational.ts';
import type { CostTerm } from './model.ts';
import type { Moments } from './moments.ts';
import type { Need } from './needs.ts';
import type { PendingMove } from './positions.ts';
import { NATURAL_RING_SECONDS, TIMES, WEIGHTS } from './weights.ts';

/** When the strings of one letter sound, asked from just after the last pluck of the old position on. */
export interface Ringing {
  /** End of the notated sound of all strings plucked up to a moment. */
  readonly notatedUntil: (moment: number) => Rational | null;
  /** Clock time at which the last of them has died away. */
  readonly audibleUntilSeconds: (moment: number) => number;
}

/** Follows the strings of one letter, every octave counted. @param plucked needs of the letter, in order of moment */
export const followRinging = (
  plucked: readonly { readonly need: Need; readonly moment: number }[],
  secondsAt: (at: Rational) => number,
): Ringing => {
  const moments: number[] = [];
  const notated: Rational[] = [];
  const audible: number[] = [];
  for (const { need, moment } of plucked) {
    const dies = secondsAt(need.release) + (NATURAL_RING_SECONDS[need.octave] ?? 1);
    const before = notated.at(-1);
    moments.push(moment);
    notated.push(before !== undefined && compare(before, need.release) > 0 ? before : need.release);
    audible.push(Math.max(audible.at(-1) ?? Number.NEGATIVE_INFINITY, dies));
  }
  const upTo = (moment: number): number => {
    let low = 0;
    let high = moments.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (moments[middle]! <= moment) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  };
  return {
    notatedUntil: (moment) => notated[upTo(moment)] ?? null,
    audibleUntilSeconds: (moment) => audible[upTo(moment)] ?? Number.NEGATIVE_INFINITY,
  };
};

/**
 * What speaks against making a move at a moment of its window, term by term.
 *
 * @returns only the terms that apply; their sum is the price that the placing minimises
 */
export const costTerms = (
  move: PendingMove,
  moment: number,
  moments: Moments,
  ringing: Ringing,
): CostTerm[] => {
  const { at, seconds, onBeat, notesPlucked } = moments.all[moment]!;
  const lead = moments.all[move.close]!.seconds - seconds;
  const terms: CostTerm[] = [];
  const charge = (name: keyof typeof WEIGHTS, share: number): void => {
    if (share > 0) terms.push({ name, amount: WEIGHTS[name] * share });
  };
  const notated = ringing.notatedUntil(move.open);
  if (notated !== null && compare(at, notated) < 0) {
    charge('stringSounding', 1 + Math.min(1, toNumber(subtract(notated, at)) / 4));
  } else {
    charge('stringRinging', Math.min(1, ringing.audibleUntilSeconds(move.open) - seconds));
  }
  if (moment === move.close) charge('noLead', 1);
  else charge('shortLead', 1 - lead / TIMES.comfortableLeadSeconds);
  if (!onBeat) charge('offBeat', 1);
  charge('perNotePlucked', notesPlucked);
  charge('perSecondAhead', lead);
  if (Math.abs(move.to - move.from) === 2) charge('twoNotchesInHaste', 1 - lead);
  return terms;
};
