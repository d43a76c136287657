import { useEffect, useRef } from 'preact/hooks';
import { readAddress, writeAddress } from '../memory/address.ts';

/** So long a place is looked at before the address names it: browsers refuse to have it changed all the time. In ms. */
const STILL_MS = 300;

/** Where a bar begins, as it is selected. */
interface BarBeginning {
  readonly kind: 'place';
  readonly bar: number;
  readonly quarters: number;
}

/**
 * The address follows the bar that is looked at. Whoever is led to another bar, as by a finding, comes back by Back to
 * where they were: what they look at one after the other in this way is one step.
 *
 * @param key of the open piece
 * @param bars of its part
 * @param place index of the bar that is looked at; null for the beginning
 * @param goTo shows the beginning of a bar that Back or Forward leads to
 * @returns to be told the bar that the user is led to, before it is shown
 */
export const usePlaceHistory = (
  key: string,
  bars: readonly { readonly onsetQuarters: number }[],
  place: number | null,
  goTo: (beginning: BarBeginning) => void,
): ((bar: number) => void) => {
  const now = useRef({ bars, place, goTo });
  now.current = { bars, place, goTo };
  /** Where the user was led last. */
  const led = useRef<number | null>(null);
  const isHere = (): boolean => readAddress(location.hash).key === key;
  const note = (): void => {
    const bar = now.current.place;
    if (bar !== null && isHere()) history.replaceState(null, '', writeAddress({ key, bar }));
  };
  useEffect(() => {
    const timer = setTimeout(note, STILL_MS);
    return () => clearTimeout(timer);
  }, [place]);
  useEffect(() => {
    const follow = (): void => {
      if (!isHere()) return;
      led.current = null;
      const { bars, place, goTo } = now.current;
      const named = readAddress(location.hash).bar ?? 0;
      if (named === place) return;
      // The file may have fewer bars than when the address was noted.
      const bar = Math.min(named, bars.length - 1);
      goTo({ kind: 'place', bar, quarters: bars[bar]!.onsetQuarters });
    };
    addEventListener('popstate', follow);
    addEventListener('pagehide', note);
    return () => {
      removeEventListener('popstate', follow);
      removeEventListener('pagehide', note);
      note();
    };
  }, [key]);
  return (bar) => {
    const from = now.current.place;
    if (bar === from || !isHere()) return;
    const isOneStep = from !== null && from === led.current;
    led.current = bar;
    if (isOneStep) return;
    note();
    history.pushState(null, '', writeAddress({ key, bar }));
  };
};
