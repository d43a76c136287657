import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { ComparisonStep } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useKeptFocus } from '../controls/kept-focus.ts';
import type { CompareQuestion, CompareReport } from './compare-messages.ts';

/** The file of the thread, as the build names it. */
declare const COMPARE_WORKER: string;

type Found = Exclude<CompareReport, { readonly kind: 'step' }>;

/** How far a comparison is. */
type Stage =
  | { readonly kind: 'idle' | 'failed' }
  | { readonly kind: 'working'; readonly step: ComparisonStep | null }
  | { readonly kind: 'found'; readonly found: Found };

/** Compares in a thread of its own, which ends with the comparison, when it is stopped, or with the view. */
const useComparison = (question: () => CompareQuestion) => {
  const [stage, setStage] = useState<Stage>({ kind: 'idle' });
  const thread = useRef<Worker | null>(null);
  const end = (last: Stage): void => {
    thread.current?.terminate();
    thread.current = null;
    setStage(last);
  };
  useEffect(() => () => thread.current?.terminate(), []);
  const begin = (): void => {
    const worker = new Worker(new URL(COMPARE_WORKER, document.baseURI), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<CompareReport>) => {
      if (data.kind === 'step') setStage({ kind: 'working', step: data });
      else end({ kind: 'found', found: data });
    });
    worker.addEventListener('error', () => end({ kind: 'failed' }));
    thread.current = worker;
    setStage({ kind: 'working', step: null });
    worker.postMessage(question());
  };
  return { stage, begin, stop: () => end({ kind: 'idle' }) };
};

interface SectionWords {
  readonly heading: string;
  readonly ask: string;
  readonly asking: string;
}

/** What is planned in other keys when the user asks for it: it tells how far it is, and can be stopped. */
export const ComparedSection = ({
  words,
  question,
  children,
}: {
  readonly words: SectionWords;
  readonly question: () => CompareQuestion;
  readonly children: (found: Found) => ComponentChildren;
}) => {
  const { stage, begin, stop } = useComparison(question);
  const section = useKeptFocus();
  return (
    <section ref={section} class="compare">
      <h2 tabIndex={-1}>{words.heading}</h2>
      {stage.kind === 'found' && children(stage.found)}
      {(stage.kind === 'idle' || stage.kind === 'failed') && (
        <button type="button" onClick={begin}>
          {words.ask}
        </button>
      )}
      {stage.kind === 'working' && (
        <>
          <progress
            aria-label={words.asking}
            max={stage.step?.of ?? 1}
            {...(stage.step === null ? {} : { value: stage.step.done })}
          />
          <button type="button" onClick={stop}>
            {STRINGS.compare.stop}
          </button>
        </>
      )}
      <p role="status">
        {stage.kind === 'working' ? words.asking : stage.kind === 'failed' ? STRINGS.viewFailed : ''}
      </p>
    </section>
  );
};
