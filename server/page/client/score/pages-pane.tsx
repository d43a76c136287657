import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { useHeldTouch } from '../chart/drag/held-touch.ts';
import { readMoveKey } from '../chart/drag/move-keys.ts';
import { scrollTo } from '../controls/scrolling.ts';
import { StepButton } from '../controls/step-button.tsx';
import { ALONG_ROW, type StepKeys } from '../controls/step-keys.ts';
import type { BarPlace } from '../planner/planned-part.ts';
import { type AskedAt, AtHand } from './at-hand.tsx';
import { firstBarIn, useBarInView } from './bar-in-view.ts';
import type { MarkingMoves } from './drag/marking-drag.ts';
import type { OthersOnPage } from './other-moves.tsx';
import { type PageEmphasis, PageSheet, type PageWish } from './page-sheet.tsx';
import { usePaperSize } from './paper-size.ts';
import { useChosenLayout } from './screen-layout.ts';

const words = STRINGS.score;

/** At 100 % a page fills the pane, but is no wider than this. */
const WIDEST = '58rem';

/** Page widths, in percent. */
const ZOOMS = [50, 75, 100, 150, 200, 300] as const;

/** What a finger takes hold of. */
const MARKINGS = 'g.pedal-marking, g.lever-marking';

type Zoom = (typeof ZOOMS)[number];

/** What is to be brought into view, and on which page it is, from 1. */
export type OnPage = PageWish & { readonly page: number };

const STEPS: StepKeys = {
  ...ALONG_ROW,
  ArrowDown: ALONG_ROW.ArrowRight!,
  ArrowUp: ALONG_ROW.ArrowLeft!,
};

const sheetsIn = (pane: HTMLElement): HTMLElement[] => [...pane.querySelectorAll<HTMLElement>('.sheet')];

const pageInView = (pane: HTMLElement): number => {
  const middle = pane.getBoundingClientRect().top + pane.clientHeight / 2;
  return Math.max(1, sheetsIn(pane).filter((sheet) => sheet.getBoundingClientRect().top <= middle).length);
};

interface ToolsProps {
  readonly page: number;
  readonly of: number;
  readonly zoom: number;
  readonly onPage: (page: number) => void;
  readonly onZoom: (step: number) => void;
  /** The pages are about to be laid out in other lines. */
  readonly onTurn: () => void;
}

/** Lines of a screen's width instead of those that print. */
const LayoutButton = ({ onTurn }: Pick<ToolsProps, 'onTurn'>) => {
  const { isLarge, onLarge } = useChosenLayout();
  const turn = (): void => {
    onTurn();
    onLarge(!isLarge);
  };
  return (
    <button type="button" class="small" aria-pressed={isLarge} onClick={turn}>
      {words.large}
    </button>
  );
};

const Tools = ({ page, of, zoom, onPage, onZoom, onTurn }: ToolsProps) => (
  <div class="tools">
    <StepButton label={words.previous} atEnd={page <= 1} onClick={() => onPage(page - 1)}>
      ‹
    </StepButton>
    <span class="count">{words.page(page, of)}</span>
    <StepButton label={words.next} atEnd={page >= of} onClick={() => onPage(page + 1)}>
      ›
    </StepButton>
    <span class="gap" />
    <StepButton label={words.zoomOut} atEnd={zoom === ZOOMS[0]} onClick={() => onZoom(-1)}>
      −
    </StepButton>
    <span class="count percent">{words.zoom(zoom)}</span>
    <StepButton label={words.zoomIn} atEnd={zoom === ZOOMS.at(-1)} onClick={() => onZoom(1)}>
      +
    </StepButton>
    <LayoutButton onTurn={onTurn} />
  </div>
);

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

/** Laid out in other lines, the pages show the bar that they showed. */
const useKeptBar = (
  pane: { readonly current: HTMLElement | null },
  { bars, pages, stale }: PagesPaneProps,
) => {
  const bar = useRef<string | null>(null);
  const [kept, setKept] = useState<OnPage | null>(null);
  const keep = (indexOf: ReadonlyMap<string, number>): void => {
    const at = firstBarIn(pane.current!, indexOf);
    bar.current = at === null ? null : bars[at]!.id;
  };
  useEffect(() => {
    const id = bar.current;
    if (id === null) return;
    const page = pages.findIndex((svg) => svg.includes(`id="${id}"`)) + 1;
    // Pages come one by one: the one with the bar may be still to come.
    if (page === 0 || stale) return;
    bar.current = null;
    setKept({ ids: [id], page, focus: false, reach: 'pane' });
  }, [pages, stale]);
  return { kept, keep, forget: () => setKept(null) };
};

/** Pages to scroll and to go through by key, in the size that the user likes. */
export const PagesPane = (props: PagesPaneProps) => {
  const { bars, pages, markings, stale, listening, emphasis, pane, onSelect, onNote, onPeek } = props;
  const { look, onTurn, indexOf, ...scrolling } = useBarInView(bars, props.onBarInView);
  usePaperSize(pages);
  useHeldTouch(pane, MARKINGS);
  const [zoom, setZoom] = useState<Zoom>(100);
  const [page, setPage] = useState(1);
  const [stepped, setStepped] = useState<OnPage | null>(null);
  const [asked, setAsked] = useState<AskedAt | null>(null);
  const { kept, keep, forget } = useKeptBar(pane, props);
  useEffect(forget, [props.wish, stepped]);
  const wish = kept ?? stepped ?? props.wish;
  // What stood on pages of before may be gone.
  useEffect(() => setAsked(null), [pages]);
  const atHand = asked === null || stale ? null : props.actionsOn(asked);

  const goToPage = (wanted: number): void => {
    onTurn();
    const sheet = sheetsIn(pane.current!)[Math.min(pages.length, Math.max(1, wanted)) - 1];
    if (sheet !== undefined) scrollTo(sheet, 'start');
  };
  const stepZoom = (step: number): void => setZoom((now) => ZOOMS[ZOOMS.indexOf(now) + step] ?? now);
  const stepMarking = (id: string, event: KeyboardEvent): void => {
    const asked = stale ? null : readMoveKey(event, 0, 0);
    if (props.moves !== null && asked !== null && asked.kind !== 'go') {
      event.preventDefault();
      if (asked.kind === 'step') props.moves.onStep(id, asked.direction);
      else props.moves.onFree(id);
      return;
    }
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const from = markings.findIndex((each) => each.id === id);
    const next = markings[step(from, markings.length - 1)];
    if (next !== undefined) setStepped({ ids: [next.id], page: next.page, focus: true, reach: 'window' });
  };
  const takeKey = (event: KeyboardEvent): void => {
    const act = {
      PageDown: () => goToPage(page + 1),
      PageUp: () => goToPage(page - 1),
      '+': () => stepZoom(1),
      '-': () => stepZoom(-1),
    }[event.key];
    if (act === undefined || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    act();
  };
  return (
    <>
      <Tools
        page={page}
        of={props.of}
        zoom={zoom}
        onPage={goToPage}
        onZoom={stepZoom}
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
        onKeyDown={takeKey}
        {...scrolling}
        onScroll={({ currentTarget }) => {
          setPage(pageInView(currentTarget));
          look(currentTarget);
        }}
      >
        <div class="sheets" style={{ width: `calc(${zoom / 100} * min(100%, ${WIDEST}))` }}>
          {pages.map((svg, i) => (
            <PageSheet
              key={i}
              svg={svg}
              page={i + 1}
              of={props.of}
              emphasis={emphasis}
              wish={wish?.page === i + 1 ? wish : null}
              onSelect={(id) => {
                setStepped(null);
                onSelect(id);
              }}
              onNote={(id) => {
                setStepped(null);
                onNote(id);
              }}
              onPeek={onPeek}
              moves={stale ? null : props.moves}
              others={props.others}
              onKey={stepMarking}
              onAsk={(what) => {
                const answers = !stale && props.actionsOn(what) !== null;
                if (answers) setAsked(what);
                return answers;
              }}
            />
          ))}
        </div>
      </section>
      {asked !== null && atHand !== null && (
        <AtHand x={asked.x} y={asked.y} onClose={() => setAsked(null)}>
          {atHand}
        </AtHand>
      )}
    </>
  );
};
