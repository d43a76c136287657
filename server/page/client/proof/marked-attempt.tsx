import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { signIds } from '../../../../render/pure.ts';
import type { AttemptReport } from '../../../api/answers/attempt-report.ts';
import { BETWEEN } from '../../strings/shared-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useAnswer } from '../controls/asked-answer.ts';
import { MusicWords } from '../controls/music-words.tsx';
import { useNaming } from '../downloads/naming.ts';
import { saveAnswer } from '../downloads/taken-files.ts';
import type { Choices } from '../options/choices.ts';
import { drawPage, proportionOf } from '../score/drawn/page-drawing.ts';
import { ZoomTools } from '../score/pages-tools.tsx';
import { startOf, useZoom } from '../score/zoom.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { fetchMarked, fetchMarkedPdf } from './proof-request.ts';

const words = STRINGS.proof;

export interface MarkedAttemptProps {
  readonly file: ScoreFile;
  readonly choices: Choices;
  readonly onClose: () => void;
}

/** The pages with the markings that the file brings, and a sign at each, over all else. */
export const MarkedAttempt = ({ file, choices, onClose }: MarkedAttemptProps) => {
  const dialog = useRef<HTMLDialogElement>(null);
  const [asked, askAgain] = useAnswer((signal) => fetchMarked(file, choices, signal), { kind: 'asking' });
  const [told, setTold] = useState('');
  useEffect(() => dialog.current!.showModal(), []);
  const naming = useNaming();
  const save = async (): Promise<void> => {
    setTold(STRINGS.take.preparing(words.markedFile));
    const wrong = saveAnswer(await fetchMarkedPdf(file, choices), naming.ofPart(STRINGS.take.names.marked));
    setTold(
      wrong === null ? STRINGS.take.done(words.markedFile) : STRINGS.take.failed(words.markedFile, wrong),
    );
  };
  return (
    <dialog ref={dialog} class="marked" aria-labelledby="marked-heading" onClose={onClose}>
      <header>
        <h2 id="marked-heading">{words.markHeading}</h2>
        {asked.kind === 'ready' && (
          <p>
            {words.points(asked.answer.points.given, asked.answer.points.most)}
            {BETWEEN}
            {words.counts(asked.answer.counts)}
          </p>
        )}
        <div class="row">
          <button type="button" disabled={asked.kind !== 'ready'} onClick={() => void save()}>
            {words.savePdf}
          </button>
          <button type="button" onClick={() => dialog.current!.close()}>
            {words.close}
          </button>
        </div>
        <p role="status">{asked.kind === 'asking' ? words.marking : told}</p>
      </header>
      {asked.kind === 'failed' && (
        <>
          <p role="alert">{asked.sentence}</p>
          <button type="button" onClick={askAgain}>
            {STRINGS.score.again}
          </button>
        </>
      )}
      {asked.kind === 'ready' && (
        <>
          <Comments report={asked.answer} onGo={(sign) => showSign(dialog.current!, sign)} />
          <Pages pages={asked.answer.pages} />
        </>
      )}
    </dialog>
  );
};

/** Brings the sign of a comment into view on the pages. */
const showSign = (dialog: HTMLElement, id: string): void => {
  const signs = [...dialog.querySelectorAll('.paper')].flatMap(
    ({ shadowRoot }) => shadowRoot?.getElementById(id) ?? [],
  );
  // The pages scroll, or on a narrow screen the dialog does.
  signs[0]?.scrollIntoView({ block: 'center', inline: 'center' });
};

/** What is not right, in words, numbered as on the pages. */
const Comments = ({
  report,
  onGo,
}: {
  readonly report: AttemptReport;
  /** The id of its sign. */
  readonly onGo: (sign: string) => void;
}) => {
  const signs = signIds(report.changes.map(({ at }) => at));
  const commented = report.changes.filter(({ verdict }) => verdict !== 'right');
  if (commented.length + report.unread.length === 0) return null;
  return (
    <section class="comments" aria-label={words.comments}>
      <ol>
        {commented.map(({ at, comment }, i) => (
          <li key={i}>
            <button type="button" class="plain" onClick={() => onGo(signs.get(at)!)}>
              <MusicWords>{comment}</MusicWords>
            </button>
          </li>
        ))}
        {report.unread.map(({ bar, text, comment }) => (
          <li key={`${bar} ${text}`}>
            <MusicWords>{comment}</MusicWords>
          </li>
        ))}
      </ol>
    </section>
  );
};

/** To be made larger and smaller like the pages of the score. */
const Pages = ({ pages }: { readonly pages: readonly string[] }) => {
  const pane = useRef<HTMLElement>(null);
  const view = useRef({ zoom: 100 });
  const { zoom, zoomTo } = useZoom(pane, view.current, startOf);
  return (
    <>
      <div class="tools">
        <ZoomTools zoom={zoom} onZoom={zoomTo} />
      </div>
      <section
        ref={pane}
        class="marked-pages"
        aria-label={STRINGS.score.heading}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by key (WCAG 2.1.1)
        tabIndex={0}
      >
        <div style={{ width: `${zoom}%` }}>
          {pages.map((svg, i) => (
            <MarkedPage key={i} svg={svg} name={STRINGS.score.page(i + 1, pages.length)} />
          ))}
        </div>
      </section>
    </>
  );
};

const MarkedPage = ({ svg, name }: { readonly svg: string; readonly name: string }) => {
  const host = useRef<HTMLDivElement>(null);
  const [drawable, setDrawable] = useState(true);
  useLayoutEffect(() => {
    const root = host.current!.shadowRoot ?? host.current!.attachShadow({ mode: 'open' });
    setDrawable(drawPage(root, svg));
    root.querySelector('svg')?.setAttribute('aria-label', name);
  }, [svg]);
  return (
    <div class="sheet">
      <div ref={host} class="paper" style={{ aspectRatio: `${proportionOf(svg)}` }} />
      {!drawable && <p role="alert">{STRINGS.score.notDrawable}</p>}
    </div>
  );
};
