import type { ComponentChildren } from 'preact';
import type { Answer } from '../service/annotate-request.ts';
import { useAnswer } from './asked-answer.ts';
import { useKeptFocus } from './kept-focus.ts';
import { StepButton } from './step-button.tsx';

/** A section whose content the service works out when the user asks for it, since it takes some time. */
export const AskedSection = <T,>({
  name,
  words,
  fetchAnswer,
  begin = 'no',
  children,
}: {
  /** Its class. */
  readonly name: string;
  readonly words: { readonly heading: string; readonly ask: string; readonly asking: string };
  readonly fetchAnswer: (signal: AbortSignal) => Promise<Answer<T>>;
  /** `asking` where the user has asked for it already, of what has changed since. */
  readonly begin?: 'no' | 'asking';
  readonly children: (answer: T) => ComponentChildren;
}) => {
  const [asked, ask] = useAnswer(fetchAnswer, begin);
  const section = useKeptFocus();
  return (
    <section ref={section} class={name}>
      <h2 tabIndex={-1}>{words.heading}</h2>
      {asked.kind === 'ready' ? (
        children(asked.answer)
      ) : (
        <StepButton atEnd={asked.kind === 'asking'} onClick={ask}>
          {words.ask}
        </StepButton>
      )}
      <p role="status">
        {asked.kind === 'asking' ? words.asking : asked.kind === 'failed' ? asked.sentence : ''}
      </p>
    </section>
  );
};
