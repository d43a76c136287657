import type { ComponentChildren } from 'preact';
import { STRINGS } from '../../strings/strings.ts';
import type { Asked } from './asked-answer.ts';
import { useKeptFocus } from './kept-focus.ts';
import { StepButton } from './step-button.tsx';

export interface AskedSectionProps<T> {
  /** Its class. */
  readonly name: string;
  readonly words: { readonly heading: string; readonly ask: string; readonly asking: string };
  readonly asked: Asked<T>;
  readonly onAsk: () => void;
  /** What is under the answer to ask once more; null where the answer still holds. */
  readonly askAgain?: string | null;
  readonly children: (answer: T) => ComponentChildren;
}

/** A section whose content the service works out when the user asks for it, since it takes some time. */
export const AskedSection = <T,>({
  name,
  words,
  asked,
  onAsk,
  askAgain = null,
  children,
}: AskedSectionProps<T>) => {
  const section = useKeptFocus();
  const label = { no: words.ask, asking: words.ask, ready: askAgain, failed: STRINGS.score.again }[
    asked.kind
  ];
  return (
    <section ref={section} class={name}>
      <h2 tabIndex={-1}>{words.heading}</h2>
      {asked.kind === 'ready' && children(asked.answer)}
      {label !== null && (
        <StepButton atEnd={asked.kind === 'asking'} onClick={onAsk}>
          {label}
        </StepButton>
      )}
      <p role="status">
        {asked.kind === 'asking' ? words.asking : asked.kind === 'failed' ? asked.sentence : ''}
      </p>
    </section>
  );
};
