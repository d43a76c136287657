import { useLayoutEffect, useState } from 'preact/hooks';
import type { ToldMove } from '../variants/compared-plan.ts';
import { linesOf, type PageMusic, stretchOnPage } from './drag/page-times.ts';
import { joinNear, type PlacedNames } from './near-names.ts';

/** What another plan does otherwise, and where the music of the pages stands. */
export interface OthersOnPage {
  readonly moves: readonly Pick<ToldMove<unknown>, 'name' | 'quarters'>[];
  readonly music: PageMusic;
}

/** Px that a name takes, with its frame. */
const NAME_WIDTH = 26;

/** In px of the page, the middle of each under its music. */
const placeNames = (paper: HTMLElement, { moves, music }: OthersOnPage): readonly PlacedNames[] => {
  const lines = linesOf(paper.shadowRoot!, music);
  const placed = moves.flatMap(({ name, quarters }) => {
    const [at] = stretchOnPage(lines, quarters, quarters);
    return at === undefined ? [] : [{ names: [name], left: at.left, top: at.line.bottom }];
  });
  return joinNear(placed, NAME_WIDTH);
};

/** The moves that another plan makes otherwise, named under the lines of the page. */
export const OtherMovesOnPage = ({
  paper,
  drawn,
  others,
}: {
  readonly paper: { readonly current: HTMLElement | null };
  /** Changes whenever the page is drawn anew. */
  readonly drawn: unknown;
  readonly others: OthersOnPage;
}) => {
  const [placed, setPlaced] = useState<readonly PlacedNames[]>([]);
  useLayoutEffect(() => {
    // Told at once, and whenever the page is made larger or smaller.
    const watch = new ResizeObserver(() => setPlaced(placeNames(paper.current!, others)));
    watch.observe(paper.current!);
    return () => watch.disconnect();
  }, [drawn, others]);
  return (
    <div class="other-moves" aria-hidden="true">
      {placed.map(({ names, left, top }, i) => (
        <span key={i} style={{ left, top }}>
          {names.join(', ')}
        </span>
      ))}
    </div>
  );
};
