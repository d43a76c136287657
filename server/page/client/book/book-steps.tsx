import { useMemo } from 'preact/hooks';
import type { TuneSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import { keyOfFile } from '../memory/kept-decisions.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { keepBook, recallBook, shownTunes, tunesOfSet } from './book-memory.ts';

const words = STRINGS.tunes;

/** The file of a whole tune book: as that of one of its tunes, with no tune chosen. */
const bookOf = ({ tune: _tune, tuning: _tuning, ...book }: ScoreFile): ScoreFile => book;

/** The tunes around one: those of the set that it was opened from, or those of the list as it was left. */
const tunesAround = (file: ScoreFile, key: string, tunes: readonly TuneSummary[]) => {
  const state = recallBook(key);
  const isIn = (some: readonly TuneSummary[]): boolean => some.some(({ number }) => number === file.tune);
  const set = file.tuning === undefined ? [] : tunesOfSet(state);
  if (isIn(set)) return { shown: set, tuning: file.tuning };
  const left = shownTunes(tunes, state);
  return { shown: isIn(left) ? left : tunes, tuning: undefined };
};

/** The key that a book is remembered by. */
export const keyOfBook = ({ bytes }: ScoreFile): string => keyOfFile({ bytes, part: null });

export interface BookStepsProps {
  readonly file: ScoreFile;
  /** All tunes of the book. */
  readonly tunes: readonly TuneSummary[];
  /** The name of the button that was used. */
  readonly onOpen: (button: string, file: ScoreFile) => void;
}

/**
 * From an open tune to the one before, the next, and the list of its book; the order is that of the set that it was
 * opened from, whose tuning the others have too, or that of the list as it was left.
 */
export const BookSteps = ({ file, tunes, onOpen }: BookStepsProps) => {
  const key = useMemo(() => keyOfBook(file), [file.bytes]);
  const { shown, tuning } = useMemo(
    () => tunesAround(file, key, tunes),
    [tunes, key, file.tune, file.tuning],
  );
  if (file.tune === undefined || tunes.length < 2) return null;
  const at = shown.findIndex(({ number }) => number === file.tune);
  const open = (button: string, { number }: TuneSummary): void => {
    keepBook(key, { ...recallBook(key), last: number });
    // A tune has its own parts.
    const next = { ...bookOf(file), part: null, tune: number };
    onOpen(button, tuning === undefined ? next : { ...next, tuning });
  };
  const step = (button: string, label: string, tune: TuneSummary | undefined) => (
    <StepButton
      name={button}
      atEnd={tune === undefined}
      {...(tune === undefined ? {} : { title: words.option(tune.number, tune.title) })}
      onClick={() => open(button, tune!)}
    >
      {label}
    </StepButton>
  );
  return (
    <nav class="book-steps" aria-label={words.book}>
      <button type="button" onClick={() => onOpen('', { ...bookOf(file), part: null })}>
        {words.all}
      </button>
      {step('previous-tune', words.previous, shown[at - 1])}
      <span class="count">{words.place(at + 1, shown.length)}</span>
      {step('next-tune', words.next, shown[at + 1])}
    </nav>
  );
};
