import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { Answer } from '../service/annotate-request.ts';
import { useKeptFocus } from './kept-focus.ts';
import { StepButton } from './step-button.tsx';

type Asked<T> =
  | { readonly kind: 'no' | 'asking' }
  | { readonly kind: 'ready'; readonly answer: T }
  | { readonly kind: 'failed'; readonly sentence: string };

/** A section whose content the service works out when the user asks for it, since it takes some time. */
export const AskedSection = <T,>({
  name,
  words,
  fetchAnswer,
  children,
}: {
  /** Its class. */
  readonly name: string;
  readonly words: { readonly heading: string; readonly ask: string; readonly asking: string };
  readonly fetchAnswer: (signal: AbortSignal) => Promise<Answer<T>>;
  readonly children: (answer: T) => ComponentChildren;
}) => {
  const [asked, setAsked] = useState<Asked<T>>({ kind: 'no' });
  const section = useKeptFocus();
  useEffect(() => {
    if (asked.kind !== 'asking') return;
    const leaving = new AbortController();
    void fetchAnswer(leaving.signal).then(
      (answer) =>
        setAsked(
          answer.ok ? { kind: 'ready', answer: answer.value } : { kind: 'failed', sentence: answer.sentence },
        ),
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [asked.kind === 'asking']);
  return (
    <section ref={section} class={name}>
      <h2 tabIndex={-1}>{words.heading}</h2>
      {asked.kind === 'ready' ? (
        children(asked.answer)
      ) : (
        <StepButton atEnd={asked.kind === 'asking'} onClick={() => setAsked({ kind: 'asking' })}>
          {words.ask}
        </StepButton>
      )}
      <p role="status">
        {asked.kind === 'asking' ? words.asking : asked.kind === 'failed' ? asked.sentence : ''}
      </p>
    </section>
  );
};
