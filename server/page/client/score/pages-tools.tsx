import { STRINGS } from '../../strings/strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import { useChosenLayout } from './screen-layout.ts';
import { type Fit, stepZoom } from './zoom.ts';

const words = STRINGS.score;

export interface PagesToolsProps {
  readonly page: number;
  readonly of: number;
  /** In percent. */
  readonly zoom: number;
  readonly onPage: (page: number) => void;
  readonly onZoom: (zoom: number) => void;
  readonly onFit: (fit: Fit) => void;
  /** The pages are about to be laid out in other lines. */
  readonly onTurn: () => void;
}

/** Lines of a screen's width instead of those that print. */
const LayoutButton = ({ onTurn }: Pick<PagesToolsProps, 'onTurn'>) => {
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

/** How large pages are, in percent. */
export const ZoomTools = ({ zoom, onZoom }: Pick<PagesToolsProps, 'zoom' | 'onZoom'>) => (
  <>
    <StepButton
      label={words.zoomOut}
      atEnd={zoom === stepZoom(zoom, -1)}
      onClick={() => onZoom(stepZoom(zoom, -1))}
    >
      −
    </StepButton>
    <span class="count percent">{words.zoom(zoom)}</span>
    <StepButton
      label={words.zoomIn}
      atEnd={zoom === stepZoom(zoom, 1)}
      onClick={() => onZoom(stepZoom(zoom, 1))}
    >
      +
    </StepButton>
  </>
);

/** Which page, and how large. */
export const PagesTools = ({ page, of, zoom, onPage, onZoom, onFit, onTurn }: PagesToolsProps) => (
  <div class="tools">
    <StepButton label={words.previous} atEnd={page <= 1} onClick={() => onPage(page - 1)}>
      ‹
    </StepButton>
    <span class="count">{words.page(page, of)}</span>
    <StepButton label={words.next} atEnd={page >= of} onClick={() => onPage(page + 1)}>
      ›
    </StepButton>
    <span class="gap" />
    <ZoomTools zoom={zoom} onZoom={onZoom} />
    <button type="button" class="small fit" onClick={() => onFit('width')}>
      {words.fitWidth}
    </button>
    <button type="button" class="small fit" onClick={() => onFit('page')}>
      {words.fitPage}
    </button>
    <LayoutButton onTurn={onTurn} />
  </div>
);
