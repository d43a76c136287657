import type { ComponentChildren } from 'preact';
import { STRINGS } from '../../strings/strings.ts';
import { type DrawingProgress, type DrawnPages, troubleOf } from './drawn/drawn-pages.ts';
import { PageTrouble } from './drawn/page-trouble.tsx';

/** How far the pages are, in words. */
export const describePages = (drawn: DrawnPages<unknown>): string => {
  switch (drawn.kind) {
    case 'drawing':
      return STRINGS.progress.drawing;
    case 'drawn':
      if (drawn.stale === false)
        return drawn.progress === null
          ? STRINGS.progress.drawn(drawn.pages.length)
          : STRINGS.progress.drawing;
      return drawn.stale.trouble === null ? STRINGS.progress.redrawing : '';
    case 'failed':
      return drawn.sentence;
  }
};

/** How many of the pages are there, while others are drawn. */
const ComingBar = ({ progress }: { readonly progress: DrawingProgress | null }) => {
  if (progress === null) return null;
  const { ready, of } = progress;
  return (
    <progress class="coming" value={ready} max={of} aria-label={STRINGS.progress.pagesReady(ready, of)} />
  );
};

/** While the first page is laid out nobody knows how far it is; the plan can be worked on meanwhile. */
const FirstPageAwaited = () => (
  <div class="pages waiting">
    <div>
      <p>{STRINGS.progress.drawing}</p>
      <progress aria-label={STRINGS.progress.drawing} />
      <p>{STRINGS.progress.planIsThere}</p>
    </div>
  </div>
);

/** Pages that are there. */
export type PagesThere<Index> = Extract<DrawnPages<Index>, { readonly kind: 'drawn' }>;

/** How many pages there will be, as far as that is known. */
export const pageCountOf = ({ pages, progress }: PagesThere<unknown>): number =>
  Math.max(pages.length, progress?.of ?? 0);

/** The annotated pages as they will print: those that are there, and what is to be said while there are none. */
export const PagesSection = <Index,>({
  drawn,
  onRedraw,
  children,
}: {
  readonly drawn: DrawnPages<Index>;
  readonly onRedraw: () => void;
  /** Shows the pages that are there. */
  readonly children: (drawn: PagesThere<Index>) => ComponentChildren;
}) => {
  const trouble = troubleOf(drawn);
  return (
    <section class="score">
      <h2>{STRINGS.score.heading}</h2>
      <p id="score-keys" class="hidden">
        {STRINGS.score.keys}
      </p>
      {drawn.kind === 'drawing' && <FirstPageAwaited />}
      <PageTrouble sentence={trouble} onAgain={onRedraw} />
      {drawn.kind === 'drawn' && (
        <>
          <ComingBar progress={trouble === null ? drawn.progress : null} />
          {children(drawn)}
        </>
      )}
    </section>
  );
};
