import { nameCount } from '../words/counts.ts';
import { nameLeversUp } from '../words/plan-words.ts';
import type { SetOrder } from './set-order.ts';

/** What is set before a tune of a set: before the first the levers that are up, before the others what changes. */
export const nameBreak = ({ breaks }: Pick<SetOrder, 'breaks'>, place: number): string => {
  const changes = breaks[place]!;
  const pitches = changes.map(({ pitch }) => pitch);
  if (place === 0) return nameLeversUp(pitches);
  return pitches.length === 0 ? 'set nothing' : `set ${pitches.join(', ')}`;
};

/** How many levers are set between the tunes. */
export const nameSetTotal = ({ changes }: Pick<SetOrder, 'changes'>): string =>
  `${nameCount(changes, 'lever change')} between the tunes: no order needs fewer.`;

/** Tunes that fit together, by their names. */
export const nameTogether = (names: readonly string[]): string =>
  `One setting of the levers serves these from beginning to end: ${names.join('; ')}`;
