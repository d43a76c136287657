import { useLayoutEffect, useState } from 'preact/hooks';
import { formatChange } from '../../../../engine/index.ts';
import { type ComparedPlan, ghostsOf } from '../variants/other-plan.ts';
import { linesOf, type PageMusic, stretchOnPage } from './drag/page-times.ts';

/** Another plan, and where the music of the pages stands. */
export interface OthersOnPage {
  readonly compared: ComparedPlan;
  readonly music: PageMusic;
}

/** A name on the page: in shares of its width and height. */
interface PlacedName {
  readonly name: string;
  readonly left: number;
  readonly top: number;
}

const placeNames = (paper: HTMLElement, music: PageMusic, compared: ComparedPlan): readonly PlacedName[] => {
  const { width, height } = paper.getBoundingClientRect();
  const lines = linesOf(paper.shadowRoot!, music);
  return ghostsOf(compared).flatMap(({ move, quarters }) => {
    const [at] = stretchOnPage(lines, quarters, quarters);
    return at === undefined
      ? []
      : [{ name: formatChange(move.letter, move.to), left: at.left / width, top: at.line.bottom / height }];
  });
};

/** The moves that another plan makes otherwise, named under the lines of the page. */
export const OtherMovesOnPage = ({
  paper,
  drawn,
  music,
  compared,
}: OthersOnPage & {
  readonly paper: { readonly current: HTMLElement | null };
  /** Changes whenever the page is drawn anew. */
  readonly drawn: unknown;
}) => {
  const [names, setNames] = useState<readonly PlacedName[]>([]);
  useLayoutEffect(() => setNames(placeNames(paper.current!, music, compared)), [drawn, music, compared]);
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
