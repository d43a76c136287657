import { isSamePitch } from '../../../music/pitch.ts';
import type { Losses } from '../losses.ts';
import type { TuneEvent, TunePitch } from '../tune.ts';

/** An event whose ties are not joined yet: `tieStarts` is what the file wishes. */
export interface DraftEvent extends TuneEvent {
  readonly startChar: number | undefined;
}

/**
 * Joins each tie of a voice to the same pitch in the next event; one that leads to no such note is left out and told.
 *
 * @param bars events of one voice, bar by bar
 */
export const joinTies = (
  bars: readonly (readonly DraftEvent[])[],
  losses: Losses,
): readonly (readonly TuneEvent[])[] => {
  let before: readonly TunePitch[] = [];
  const row = bars.flat();
  const joined = row.map((event, index): TuneEvent => {
    const next = row[index + 1]?.pitches ?? [];
    const pitches = event.pitches.map((each) => ({
      ...each,
      tieStarts: each.tieStarts && next.some(({ pitch }) => isSamePitch(pitch, each.pitch)),
      tieEnds: before.some(({ pitch }) => isSamePitch(pitch, each.pitch)),
    }));
    const wished = event.pitches.some(({ tieStarts }) => tieStarts);
    if (wished && !pitches.some(({ tieStarts }) => tieStarts))
      losses.at('Ties that lead to no note of the same pitch are left out', event.startChar);
    before = pitches.filter(({ tieStarts }) => tieStarts);
    const { startChar: _place, ...whole } = event;
    return { ...whole, pitches };
  });
  let taken = 0;
  return bars.map((bar) => {
    taken += bar.length;
    return joined.slice(taken - bar.length, taken);
  });
};
