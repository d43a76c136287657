import type { ComponentChildren } from 'preact';
import { MusicWords } from './music-words.tsx';

export interface StepButtonProps {
  readonly children: ComponentChildren;
  /** There is nothing more to step to: it does nothing, but keeps the focus, which a disabled button would lose. */
  readonly atEnd: boolean;
  /** By which it is found again when another view has taken the place of its own. */
  readonly name?: string;
  readonly label?: string;
  readonly title?: string | undefined;
  readonly small?: boolean;
  readonly onClick: () => void;
}

/** A button that is used again and again until nothing is left: to the next page, one step back, one size larger. */
export const StepButton = ({
  children,
  atEnd,
  name,
  label,
  title,
  small = false,
  onClick,
}: StepButtonProps) => (
  <button
    type="button"
    name={name}
    class={small ? 'small' : ''}
    aria-disabled={atEnd}
    aria-label={label}
    title={title}
    onClick={() => {
      if (!atEnd) onClick();
    }}
  >
    {children}
  </button>
);

/** A small one, for what can be done just now. */
export const SmallStepButton = ({
  children,
  atEnd = false,
  title,
  onClick,
}: {
  readonly children: string;
  readonly atEnd?: boolean;
  readonly title?: string | undefined;
  readonly onClick: () => void;
}) => (
  <StepButton small atEnd={atEnd} title={title} onClick={onClick}>
    <MusicWords>{children}</MusicWords>
  </StepButton>
);
