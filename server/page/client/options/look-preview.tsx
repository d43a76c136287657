import { useEffect, useRef, useState } from 'preact/hooks';
import { NO_DECISIONS, type OptionGroup } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { parseDrawing } from '../controls/safe-svg.ts';
import { fetchFile } from '../service/annotate-request.ts';
import { type Choices, chosenOf, listedFor, OWN } from './choices.ts';
import { PREVIEW_PASSAGE } from './preview-passage.ts';

const words = STRINGS.choices;

const PASSAGE = {
  name: 'passage.musicxml',
  bytes: new TextEncoder().encode(PREVIEW_PASSAGE),
  part: null,
};

/** What the options are about that change how a line looks. */
const SEEN: ReadonlySet<OptionGroup> = new Set(['markings', 'settings', 'notes']);

/** A slip of paper, wide enough for the passage on one line at any staff height. */
const slipFor = (choices: Choices): Choices => {
  const staffMm = chosenOf(choices, 'staffMm', 'pedal');
  const seen = listedFor('pedal').filter(({ group }) => SEEN.has(group));
  return {
    ...Object.fromEntries(seen.map(({ name }) => [name, chosenOf(choices, name, 'pedal')])),
    staffMm,
    paper: OWN,
    'paper.widthMm': `${Math.max(130, Math.round(Number(staffMm) * 21))}`,
    'paper.heightMm': '150',
  };
};

const STILL_MS = 300;

/** Room round the line, in the drawing's own units (a hundredth of a millimetre). */
const MARGIN = 150;

const sheetStyle = new CSSStyleSheet();
sheetStyle.replaceSync('svg { display: block; width: 100%; }');

/** Shows the first line of a page, and none of the empty paper round it. */
const cropToLine = (drawing: SVGSVGElement): void => {
  const scaled = drawing.querySelector<SVGSVGElement>('svg');
  const margin = drawing.querySelector<SVGGElement>('.page-margin');
  const line = margin?.querySelector<SVGGElement>('.system');
  if (!scaled || !margin || !line) return;
  const box = line.getBBox();
  const place = line.parentElement as unknown as SVGGElement;
  const shifts = [margin, place].map((group) => group.transform.baseVal.consolidate()?.matrix);
  const shift = (side: 'e' | 'f'): number => shifts.reduce((sum, matrix) => sum + (matrix?.[side] ?? 0), 0);
  const [width, height] = [box.width + 2 * MARGIN, box.height + 2 * MARGIN];
  const [x, y] = [box.x + shift('e') - MARGIN, box.y + shift('f') - MARGIN];
  scaled.setAttribute('viewBox', `${x} ${y} ${width} ${height}`);
  for (const name of ['width', 'height']) drawing.removeAttribute(name);
  drawing.style.aspectRatio = `${width / height}`;
};

/** Whether the preview is or was in the window: nothing is asked of the service before. */
const useSeen = (host: { readonly current: HTMLElement | null }): boolean => {
  const [seen, setSeen] = useState(false);
  useEffect(() => {
    const watch = new IntersectionObserver((entries) => {
      if (entries.some(({ isIntersecting }) => isIntersecting)) setSeen(true);
    });
    watch.observe(host.current!);
    return () => watch.disconnect();
  }, []);
  return seen;
};

/** One line of a fixed passage in the chosen look, as the service draws it. */
export const LookPreview = ({ choices }: { readonly choices: Choices }) => {
  const host = useRef<HTMLDivElement>(null);
  const seen = useSeen(host);
  const [state, setState] = useState<'drawing' | 'drawn' | 'failed'>('drawing');
  const slip = slipFor(choices);
  const wanted = JSON.stringify(slip);
  useEffect(() => {
    if (!seen) return;
    const leaving = new AbortController();
    setState('drawing');
    const ask = async (): Promise<void> => {
      try {
        const order = { file: PASSAGE, harp: 'pedal', choices: slip, decisions: NO_DECISIONS } as const;
        const answer = await fetchFile(order, 'image/svg+xml', leaving.signal);
        const drawing = answer.ok ? parseDrawing(await answer.value.blob.text()) : null;
        if (leaving.signal.aborted) return;
        const root = host.current!.shadowRoot ?? host.current!.attachShadow({ mode: 'open' });
        if (drawing !== null) {
          root.adoptedStyleSheets = [sheetStyle];
          root.replaceChildren(drawing);
          cropToLine(drawing);
        }
        setState(drawing === null ? 'failed' : 'drawn');
      } catch (error) {
        if (!leaving.signal.aborted) throw error;
      }
    };
    const timer = setTimeout(() => void ask(), STILL_MS);
    return () => {
      clearTimeout(timer);
      leaving.abort();
    };
  }, [seen, wanted]);
  return (
    <figure class={`preview ${state}`}>
      <div ref={host} class="paper" role="img" aria-label={words.preview} aria-busy={state === 'drawing'} />
      <figcaption class={state === 'failed' ? '' : 'hidden'}>
        <span role="status">{state === 'failed' ? words.previewFailed : ''}</span>
      </figcaption>
    </figure>
  );
};
