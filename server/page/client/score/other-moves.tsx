import { useLayoutEffect, useState } from 'preact/hooks';
import type { ToldMove } from '../variants/compared-plan.ts';
import { linesOf, type PageMusic, stretchOnPage } from './drag/page-times.ts';

/** What another plan does otherwise, and where the music of the pages stands. */
export interface OthersOnPage {
  readonly moves: readonly Pick<ToldMove<unknown>, 'name' | 'quarters'>[];
  readonly music: PageMusic;
}

/** A name on the page: in shares of its width and height. */
interface PlacedName {
  readonly name: string;
  readonly left: number;
  readonly top: number;
}

const placeNames = (paper: HTMLElement, { moves, music }: OthersOnPage): readonly PlacedName[] => {
  const { width, height } = paper.getBoundingClientRect();
  const lines = linesOf(paper.shadowRoot!, music);
  return moves.flatMap(({ name, quarters }) => {
    const [at] = stretchOnPage(lines, quarters, quarters);
    return at === undefined ? [] : [{ name, left: at.left / width, top: at.line.bottom / height }];
  });
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
  const [names, setNames] = useState<readonly PlacedName[]>([]);
  useLayoutEffect(() => setNames(placeNames(paper.current!, others)), [drawn, others]);
  return (
    <div class="other-moves" aria-hidden="true">
      {names.map(({ name, left, top }, i) => (
        <span key={i} style={{ left: `${left * 100}%`, top: `${top * 100}%` }}>
          {name}
        </span>
      ))}
    </div>
  );
};
