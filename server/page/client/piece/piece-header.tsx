import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { VerdictClause } from '../../../../engine/index.ts';
import { BETWEEN } from '../../strings/shared-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { scrollTo } from '../controls/scrolling.ts';
import { HistoryBar, type HistoryBarProps } from '../decisions/history/history-bar.tsx';
import { DifficultyDetails, type DifficultyDetailsProps } from './difficulty-details.tsx';

export interface PieceHeaderProps extends Omit<HistoryBarProps, 'children' | 'unfold'> {
  readonly title: string;
  /** Who wrote it, and which part it is; what is not known is empty. */
  readonly about: readonly string[];
  /** Whether it can be played, each clause in the colour of the findings that it sums up. */
  readonly verdict: readonly VerdictClause[];
  /** The plan in figures. */
  readonly figures: string;
  /** How the harp stands before the first note. */
  readonly start: ComponentChildren;
  readonly difficulty: DifficultyDetailsProps;
  /** What else can be opened, and for which harp. */
  readonly picker: ComponentChildren;
  /** What is to be known of an earlier visit. */
  readonly children: ComponentChildren;
}

/** So many clauses are always told: that a part is playable by the feet, and what the hands cannot do. */
const ALWAYS_TOLD = 2;

const Verdict = ({ clauses }: { readonly clauses: readonly VerdictClause[] }) => (
  <strong>
    {clauses.map(({ severity, words }, i) => (
      <span key={i} class={i < ALWAYS_TOLD ? '' : 'foldable'}>
        {i > 0 && '; '}
        <span class={severity ?? ''}>{words}</span>
      </span>
    ))}
    {clauses.length > ALWAYS_TOLD && <span class="when-folded"> …</span>}
  </strong>
);

/**
 * The piece and what can be said of it in a line, undoing, and what else can be opened. On a narrow screen the title, the
 * verdict and undoing are seen; the rest is unfolded by a button.
 */
export const PieceHeader = (props: PieceHeaderProps) => {
  const { title, about, verdict, figures, start, difficulty, picker, children, ...history } = props;
  const piece = useRef<HTMLDivElement>(null);
  const [isUnfolded, setUnfolded] = useState(false);
  // The button is at hand wherever the page is scrolled to; what it unfolds stands at the top.
  useLayoutEffect(() => {
    if (isUnfolded) scrollTo(piece.current!, 'start');
  }, [isUnfolded]);
  const known = about.filter((each) => each !== '').join(BETWEEN);
  return (
    <header class={isUnfolded ? 'unfolded' : ''}>
      <div ref={piece} class="piece">
        <h1 tabIndex={-1}>{title}</h1>
        <p>
          <span class="foldable">
            {known}
            {known !== '' && BETWEEN}
          </span>
          <Verdict clauses={verdict} />
          {BETWEEN}
          {figures}
          <span class="foldable">
            {BETWEEN}
            {start}
          </span>
        </p>
        <div class="foldable">
          <DifficultyDetails {...difficulty} />
        </div>
      </div>
      <HistoryBar
        {...history}
        unfold={
          <button
            type="button"
            class="unfold"
            aria-expanded={isUnfolded}
            aria-label={STRINGS.summary.about}
            onClick={() => setUnfolded(!isUnfolded)}
          >
            {STRINGS.summary.aboutShort}
          </button>
        }
      >
        {picker}
      </HistoryBar>
      {children}
    </header>
  );
};
