import { useEffect, useRef } from 'preact/hooks';

export interface ChoiceListProps {
  readonly heading: string;
  readonly intro: string;
  /** What can be chosen: a key, and what its button says. */
  readonly choices: readonly { readonly key: string; readonly label: string }[];
  readonly onChoose: (key: string) => void;
}

/** A question that comes up while a file is opened, whose heading takes the focus, with a button for each answer. */
export const ChoiceList = ({ heading, intro, choices, onChoose }: ChoiceListProps) => {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus(), []);
  return (
    <section class="parts">
      <h2 ref={title} tabIndex={-1}>
        {heading}
      </h2>
      <p>{intro}</p>
      <ul>
        {choices.map(({ key, label }) => (
          <li key={key}>
            <button type="button" onClick={() => onChoose(key)}>
              {label}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};
