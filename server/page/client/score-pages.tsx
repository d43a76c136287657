import { useMemo, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../strings.ts';
import { askingNotes } from './asking-notes.ts';
import { type DrawnPages, troubleOf } from './drawn-pages.ts';
import { useFollowing } from './follow-pages.ts';
import type { Listening } from './listening.ts';
import type { PageIndex } from './page-markings.ts';
import { type PageEmphasis, PageSheet, type PageWish } from './page-sheet.tsx';
import type { PlannedPart } from './planned-part.ts';
import { scrollTo } from './scrolling.ts';
import { markingOf, movesOf } from './selected-moves.ts';
import type { Selection, Spot } from './spot.ts';

export interface ScorePagesProps {
  readonly part: PlannedPart;
  readonly drawn: DrawnPages;
  readonly selection: Selection | null;
  readonly onSelect: (spot: Spot) => void;
  readonly onPeek: (spot: Spot | null) => void;
  readonly onRedraw: () => void;
  readonly listening: Listening | null;
}

const words = STRINGS.score;

/** At 100 % a page fills the pane, but is no wider than this. */
const WIDEST = '58rem';

/** Page widths, in percent. */
const ZOOMS = [50, 75, 100, 150, 200, 300] as const;

type Zoom = (typeof ZOOMS)[number];

type OnPage = PageWish & { readonly page: number };

/** Where the selection is on the pages, if another view chose it. */
const wishFor = (part: PlannedPart, index: PageIndex, selection: Selection | null): OnPage | null => {
  if (selection === null || selection.origin === 'score' || selection.origin === 'plan') return null;
  const { spot } = selection;
  if (spot.kind === 'place') {
    return { ids: [part.bars[spot.bar]?.id ?? ''], page: index.pageOfBar(spot.bar), focus: false };
  }
  if (spot.kind === 'finding') {
    const { bar, notes } = part.plan.findings[spot.finding]!;
    return { ids: [...notes, part.bars[bar]!.id], page: index.pageOfBar(bar), focus: false };
  }
  const marking = markingOf(spot, index);
  return marking === null ? null : { ids: [marking.id], page: marking.page, focus: false };
};

const emphasisFor = (part: PlannedPart, index: PageIndex, selection: Selection | null): PageEmphasis => {
  const spot = selection?.spot ?? null;
  const selected = markingOf(spot, index)?.id ?? null;
  const notes =
    spot?.kind === 'finding'
      ? part.plan.findings[spot.finding]!.notes
      : movesOf(spot, index).flatMap((move) => askingNotes(part, part.plan.moves[move]!));
  return { selected, notes, tabStop: selected ?? index.markings[0]?.id ?? null };
};

/** By which key one goes to which marking, counted from the one that has the focus. */
const STEPS: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowRight: (at) => at + 1,
  ArrowDown: (at) => at + 1,
  ArrowLeft: (at) => at - 1,
  ArrowUp: (at) => at - 1,
  Home: () => 0,
  End: (_at, last) => last,
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
}

const Tools = ({ page, of, zoom, onPage, onZoom }: ToolsProps) => (
  <div class="tools">
    <button type="button" aria-label={words.previous} disabled={page <= 1} onClick={() => onPage(page - 1)}>
      ‹
    </button>
    <span class="count">{words.page(page, of)}</span>
    <button type="button" aria-label={words.next} disabled={page >= of} onClick={() => onPage(page + 1)}>
      ›
    </button>
    <span class="gap" />
    <button type="button" aria-label={words.zoomOut} disabled={zoom === ZOOMS[0]} onClick={() => onZoom(-1)}>
      −
    </button>
    <span class="count">{words.zoom(zoom)}</span>
    <button
      type="button"
      aria-label={words.zoomIn}
      disabled={zoom === ZOOMS.at(-1)}
      onClick={() => onZoom(1)}
    >
      +
    </button>
  </div>
);

type DrawnProps = Omit<ScorePagesProps, 'drawn' | 'onRedraw'> & {
  readonly pages: readonly string[];
  readonly index: PageIndex;
  readonly stale: boolean;
};

const Pages = ({ part, pages, index, stale, selection, onSelect, onPeek, listening }: DrawnProps) => {
  const pane = useRef<HTMLDivElement>(null);
  useFollowing(pane, listening, part, index);
  const [zoom, setZoom] = useState<Zoom>(100);
  const [page, setPage] = useState(1);
  const [stepped, setStepped] = useState<OnPage | null>(null);
  const emphasis = useMemo(() => emphasisFor(part, index, selection), [part, index, selection]);
  // Pages that are drawn anew bring nothing into view again: they stay where they are.
  const shown = useMemo(() => wishFor(part, index, selection), [selection]);
  const wish = shown ?? stepped;

  const goToPage = (wanted: number): void => {
    const sheet = sheetsIn(pane.current!)[Math.min(pages.length, Math.max(1, wanted)) - 1];
    if (sheet !== undefined) scrollTo(sheet, 'start');
  };
  const stepZoom = (step: number): void => setZoom((now) => ZOOMS[ZOOMS.indexOf(now) + step] ?? now);
  const stepMarking = (id: string, event: KeyboardEvent): void => {
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next =
      index.markings[
        step(
          index.markings.findIndex((each) => each.id === id),
          index.markings.length - 1,
        )
      ];
    if (next !== undefined) setStepped({ ids: [next.id], page: next.page, focus: true });
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
      <Tools page={page} of={pages.length} zoom={zoom} onPage={goToPage} onZoom={stepZoom} />
      <section
        ref={pane}
        class={['pages', stale ? 'stale' : '', listening === null ? '' : 'listening'].join(' ')}
        aria-busy={stale}
        aria-label={words.heading}
        aria-describedby="score-keys"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by key (WCAG 2.1.1)
        tabIndex={0}
        onKeyDown={takeKey}
        onScroll={({ currentTarget }) => setPage(pageInView(currentTarget))}
      >
        <div class="sheets" style={{ width: `calc(${zoom / 100} * min(100%, ${WIDEST}))` }}>
          {pages.map((svg, i) => (
            <PageSheet
              key={i}
              svg={svg}
              page={i + 1}
              of={pages.length}
              emphasis={emphasis}
              wish={wish?.page === i + 1 ? wish : null}
              onSelect={(id) => {
                setStepped(null);
                onSelect({ kind: 'marking', id });
              }}
              onPeek={(id) => onPeek(id === null ? null : { kind: 'marking', id })}
              onKey={stepMarking}
            />
          ))}
        </div>
      </section>
    </>
  );
};

const Trouble = ({ drawn, onRedraw }: Pick<ScorePagesProps, 'drawn' | 'onRedraw'>) => {
  const sentence = troubleOf(drawn);
  if (sentence === null) return null;
  return (
    <div class="refused" role="alert">
      <p>{sentence}</p>
      <button type="button" onClick={onRedraw}>
        {words.again}
      </button>
    </div>
  );
};

/** The annotated pages as they will print. */
export const ScorePages = ({ drawn, onRedraw, ...props }: ScorePagesProps) => (
  <section class="score">
    <h2>{words.heading}</h2>
    <p id="score-keys" class="hidden">
      {words.keys}
    </p>
    {drawn.kind === 'drawing' && <div class="pages waiting">{STRINGS.progress.drawing}</div>}
    <Trouble drawn={drawn} onRedraw={onRedraw} />
    {drawn.kind === 'drawn' && (
      <Pages {...props} pages={drawn.pages} index={drawn.index} stale={drawn.stale !== false} />
    )}
  </section>
);
