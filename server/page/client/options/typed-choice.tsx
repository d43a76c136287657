import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';

export interface TypedChoiceProps {
  readonly name: string;
  readonly label: string;
  readonly chosen: string;
  readonly isGood: (typed: string) => boolean;
  /** What to do where what is typed is no good. */
  readonly advice: string;
  /** What kind of field it is typed into. */
  readonly field: JSX.InputHTMLAttributes<HTMLInputElement>;
  readonly onChoose: (typed: string) => void;
}

/** A choice that is typed; what is no good is left as typed, with what to do, and changes nothing. */
export const TypedChoice = ({ name, label, chosen, isGood, advice, field, onChoose }: TypedChoiceProps) => {
  const [text, setText] = useState(chosen);
  useEffect(() => setText(chosen), [chosen]);
  const take = (typed: string): void => {
    setText(typed);
    if (isGood(typed)) onChoose(typed);
  };
  return (
    <>
      <label>
        <span>{label}</span>
        <input
          {...field}
          name={name}
          aria-invalid={!isGood(text)}
          aria-describedby={`${name}-wrong`}
          value={text}
          onChange={({ currentTarget }) => take(currentTarget.value.trim())}
        />
      </label>
      <p id={`${name}-wrong`} class="wrong" role="alert">
        {!isGood(text) && advice}
      </p>
    </>
  );
};
