import type { ComponentChildren } from 'preact';
import { useEffect, useLayoutEffect, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { useHeldTouch } from '../chart/drag/held-touch.ts';
import { scrollTo } from '../controls/scrolling.ts';
import type { BarPlace } from '../planner/planned-part.ts';
import { type AskedAt, AtHand } from './at-hand.tsx';
import { useBarInView } from './bar-in-view.ts';
import { type MarkingDrag, type MarkingMoves, useMarkingDrag } from './drag/marking-drag.ts';
import { usePaperSize } from './drawn/paper-size.ts';
import { useKeptBar } from './kept-bar.ts';
import { useMarkingKeys } from './marking-keys.ts';
import type { OthersOnPage } from './other-moves.tsx';
import { type OnPage, type PageEmphasis, PageSheet, type PageSheetProps } from './page-sheet.tsx';
import { PagesTools } from './pages-tools.tsx';
import type { ScoreView } from './score-view.ts';
import { useChosenLayout } from './screen-layout.ts';
import { stepZoom, useZoom } from './zoom.ts';

const words = STRINGS.score;

/** At 100 % a page fills the pane, but is no wider than this. */
const WIDEST = '58rem';

/** What a finger takes hold of. */
const MARKINGS = 'g.pedal-marking, g.lever-marking';

const sheetsIn = (pane: HTMLElement): HTMLElement[] => [...pane.querySelectorAll<HTMLElement>('.sheet')];

const pageInView = (pane: HTMLElement): number => {
  const middle = pane.getBoundingClientRect().top + pane.clientHeight / 2;
  return Math.max(1, sheetsIn(pane).filter((sheet) => sheet.getBoundingClientRect().top <= middle).length);
};

export interface PagesPaneProps {
  readonly bars: readonly BarPlace[];
  /** Those that are there. */
  readonly pages: readonly string[];
  /** How many there will be. */
  readonly of: number;
  /** In the order in which keys go through them. */
  readonly markings: readonly { readonly id: string; readonly page: number }[];
  /** They are of an earlier plan or look. */
  readonly stale: boolean;
  /** Another plan is being made. */
  readonly isPlanning: boolean;
  readonly listening: boolean;
  readonly emphasis: PageEmphasis;
  readonly wish: OnPage | null;
  readonly pane: { current: HTMLDivElement | null };
  readonly onSelect: (marking: string) => void;
  readonly onNote: (note: string) => void;
  readonly onPeek: (marking: string | null) => void;
  /** How markings are moved on the pages; null where they stay. */
  readonly moves: MarkingMoves | null;
  /** What another plan does otherwise; null where none is looked at. */
  readonly others: OthersOnPage | null;
  /** What can be done with something on the pages; null for nothing. */
  readonly actionsOn: (what: Pick<AskedAt, 'kind' | 'id'>) => ComponentChildren | null;
  /** The user scrolled: a bar, as an index, now comes first in view. */
  readonly onBarInView: (bar: number) => void;
}

/** Which page is seen, and how large: by the tools, by key, with two fingers. */
const useView = (
  pane: { readonly current: HTMLElement | null },
  pages: readonly string[],
  /** The user goes elsewhere. */
  onTurn: () => void,
  before: ScoreView,
) => {
  const { zoom, zoomTo, fitTo } = useZoom(pane, before);
  useLayoutEffect(() => {
    pane.current!.scrollTop = before.scrollTop;
  }, []);
  const [page, setPage] = useState(1);
  const goToPage = (wanted: number): void => {
    onTurn();
    const sheet = sheetsIn(pane.current!)[Math.min(pages.length, Math.max(1, wanted)) - 1];
    if (sheet !== undefined) scrollTo(sheet, 'start');
  };
  const takeKey = (event: KeyboardEvent): void => {
    const act = {
      PageDown: () => goToPage(page + 1),
      PageUp: () => goToPage(page - 1),
      '+': () => zoomTo(stepZoom(zoom, 1)),
      '-': () => zoomTo(stepZoom(zoom, -1)),
    }[event.key];
    if (act === undefined || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    act();
  };
  return { zoom, zoomTo, fitTo, page, setPage, goToPage, takeKey };
};

/** What can be done with something on the pages, where it was asked for. */
const useAtHand = ({ pages, stale, actionsOn }: PagesPaneProps, tell: (told: string) => void) => {
  const [asked, setAsked] = useState<AskedAt | null>(null);
  // What stood on pages of before may be gone.
  useEffect(() => setAsked(null), [pages]);
  const actions = asked === null || stale ? null : actionsOn(asked);
  return {
    onAsk: (what: AskedAt): boolean => {
      if (stale) tell(words.stillDrawn);
      const answers = !stale && actionsOn(what) !== null;
      if (answers) setAsked(what);
      return answers || stale;
    },
    atHand: asked !== null && actions !== null && (
      <AtHand x={asked.x} y={asked.y} onClose={() => setAsked(null)}>
        {actions}
      </AtHand>
    ),
  };
};

/** The pages one under the other, in the size that the user likes. */
const Sheets = ({
  props,
  zoom,
  wish,
  drag,
  ...use
}: Pick<PageSheetProps, 'onSelect' | 'onNote' | 'onAsk' | 'onKey'> & {
  readonly props: PagesPaneProps;
  readonly zoom: number;
  readonly wish: OnPage | null;
  readonly drag: MarkingDrag | null;
}) => {
  const { pages, of, emphasis, moves, others, onPeek } = props;
  return (
    <div class="sheets" style={{ width: `calc(${zoom / 100} * min(100%, ${WIDEST}))` }}>
      {pages.map((svg, i) => (
        <PageSheet
          key={i}
          {...{ svg, of, emphasis, moves, others, drag, onPeek }}
          {...use}
          page={i + 1}
          wish={wish?.page === i + 1 ? wish : null}
        />
      ))}
    </div>
  );
};

/** Pages to scroll and to go through by key, in the size that the user likes. */
export const PagesPane = (props: PagesPaneProps) => {
  const { bars, pages, stale, listening, pane, onSelect, onNote } = props;
  const { look, onTurn, indexOf, ...scrolling } = useBarInView(bars, props.onBarInView);
  usePaperSize(pages);
  useHeldTouch(pane, MARKINGS);
  const score = useChosenLayout().view;
  const view = useView(pane, pages, onTurn, score);
  const { stepped, told, tell, ...keys } = useMarkingKeys(props);
  const { kept, keep, forget } = useKeptBar(pane, props, score);
  useEffect(forget, [props.wish, stepped]);
  useEffect(() => tell(''), [pages]);
  const { onAsk, atHand } = useAtHand(props, tell);
  const drag = useMarkingDrag(pane, stale ? null : props.moves, () => tell(words.stillDrawn));
  const choose = (onChosen: (id: string) => void) => (id: string) => {
    keys.forget();
    onChosen(id);
  };
  return (
    <>
      <PagesTools
        page={view.page}
        of={props.of}
        zoom={view.zoom}
        onPage={view.goToPage}
        onZoom={view.zoomTo}
        onFit={view.fitTo}
        onTurn={() => keep(indexOf)}
      />
      <section
        ref={pane}
        class={['pages', stale ? 'stale' : '', listening ? 'listening' : ''].join(' ')}
        aria-busy={stale}
        aria-label={words.heading}
        aria-describedby="score-keys"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by key (WCAG 2.1.1)
        tabIndex={0}
        onKeyDown={view.takeKey}
        {...scrolling}
        onScroll={({ currentTarget }) => {
          score.scrollTop = currentTarget.scrollTop;
          view.setPage(pageInView(currentTarget));
          look(currentTarget);
        }}
      >
        <Sheets
          {...{ props, drag, onAsk }}
          zoom={view.zoom}
          wish={kept ?? stepped ?? props.wish}
          onSelect={choose(onSelect)}
          onNote={choose(onNote)}
          onKey={keys.takeKey}
        />
      </section>
      <p class="page-told" role="status">
        {told}
      </p>
      {atHand}
    </>
  );
};
