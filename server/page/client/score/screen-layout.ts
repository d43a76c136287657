import { createContext } from 'preact';
import { useContext, useMemo, useState } from 'preact/hooks';
import { isPhone } from '../controls/narrow.ts';
import { type Choices, OWN } from '../options/choices.ts';
import type { Order } from '../service/annotate-request.ts';
import { newView, type ScoreView } from './score-view.ts';

/** How the score is laid out on the screen: on the paper that prints, or in short lines that a small screen shows large. */
export interface ScreenLayout {
  readonly isLarge: boolean;
  readonly onLarge: (isLarge: boolean) => void;
  readonly view: ScoreView;
}

const AS_PRINTED: ScreenLayout = { isLarge: false, onLarge: () => {}, view: newView() };

const Layout = createContext(AS_PRINTED);

/** Around everything that shows pages. */
export const ScreenLayoutProvider = Layout.Provider;

export const useChosenLayout = (): ScreenLayout => useContext(Layout);

/**
 * In millimetres: lines of two bars or so, 14 staves wide, on a page a little higher than a telephone's. A page that is
 * laid out so large has narrow margins: they are the same on all paper.
 */
const LARGE: Choices = {
  paper: OWN,
  'paper.widthMm': '200',
  'paper.heightMm': '400',
  staffMm: '12.5',
};

/**
 * The order for the pages that are shown; what is downloaded stays as the user chose it. Small screens begin with large
 * notes.
 */
export const useOrderOnScreen = (
  order: Order,
  view: ScoreView,
): { readonly layout: ScreenLayout; readonly onScreen: Order } => {
  const [isLarge, setLarge] = useState(() => view.isLarge ?? isPhone());
  const onLarge = (wanted: boolean): void => {
    view.isLarge = wanted;
    setLarge(wanted);
  };
  const layout = useMemo(() => ({ isLarge, onLarge, view }), [isLarge]);
  const onScreen = useMemo(
    () => (isLarge ? { ...order, choices: { ...order.choices, ...LARGE } } : order),
    [order, isLarge],
  );
  return { layout, onScreen };
};
