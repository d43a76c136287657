import { listBarIds, listGroups } from './page-text.ts';

/** A marking of pedals as it is printed on some page. */
export interface PrintedPedals {
  readonly id: string;
  readonly kind: 'setting' | 'change';
  /** Note names, such as `C♯ F♮`. */
  readonly pedals: string;
  /** Index into the bars. */
  readonly bar: number;
  readonly onsetQuarters: number;
  /** In its bar, from 1, as a fraction. */
  readonly beat: string;
}

/** A marking for the hands as it is printed on some page. */
export interface PrintedLevers {
  readonly id: string;
  /** Exact score time, such as `51/2`. */
  readonly onset: string;
  /** What the strings give then, such as `F♯4`. */
  readonly strings: readonly string[];
}

/** A page as the service draws it, with what is read off it whatever the plan. */
export interface ReadPage {
  readonly svg: string;
  readonly pedals: readonly PrintedPedals[];
  readonly levers: readonly PrintedLevers[];
  readonly barIds: readonly string[];
}

const PEDALS = /<g id="(marking-\d+)" class="pedal-marking[^"]*"([^>]*)>/g;
const LEVERS = /<g id="(marking-[\d-]+)" class="[^"]*lever-marking[^"]*"([^>]*)>/g;

/** A score time of a page, such as `51/2`, in quarters. */
export const quartersOfKey = (key: string): number => {
  const [num, den = 1] = key.split('/').map(Number);
  return num! / den;
};

const readPedals = (svg: string): readonly PrintedPedals[] =>
  listGroups(svg, PEDALS).map(({ id, attribute }) => ({
    id,
    kind: attribute('data-kind') === 'setting' ? 'setting' : 'change',
    pedals: attribute('data-pedals'),
    bar: Number(attribute('data-bar-index')),
    onsetQuarters: quartersOfKey(attribute('data-onset')),
    beat: attribute('data-beat'),
  }));

const readLevers = (svg: string): readonly PrintedLevers[] =>
  listGroups(svg, LEVERS).map(({ id, attribute }) => ({
    id,
    onset: attribute('data-onset'),
    strings: attribute('data-strings').split(' '),
  }));

export const readPage = (svg: string): ReadPage => ({
  svg,
  pedals: readPedals(svg),
  levers: readLevers(svg),
  barIds: listBarIds(svg),
});
