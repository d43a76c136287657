import { STRINGS } from '../strings.ts';
import { PageSheet, type PageWish } from './page-sheet.tsx';

export interface LeverPagesProps {
  readonly pages: readonly string[];
  /** Id of the marking that is looked at. */
  readonly selected: string | null;
  readonly asking: readonly string[];
  readonly wish: PageWish | null;
  readonly onSelect: (marking: string) => void;
}

/** The pages of a part for the lever harp. */
export const LeverPages = ({ pages, selected, asking, wish, onSelect }: LeverPagesProps) => (
  <section class="score" aria-label={STRINGS.score.heading}>
    <div class="pages">
      <div class="sheets">
        {pages.map((svg, i) => (
          <PageSheet
            key={i}
            svg={svg}
            page={i + 1}
            of={pages.length}
            emphasis={{ selected, notes: asking, tabStop: selected ?? 'marking-1' }}
            wish={wish}
            onSelect={onSelect}
            onPeek={() => {}}
            onKey={() => {}}
          />
        ))}
      </div>
    </div>
  </section>
);
