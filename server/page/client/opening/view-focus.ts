import { useEffect, useRef } from 'preact/hooks';
import { viewOf } from '../score/score-view.ts';
import { fileIn, type ScoreStage } from './opened-score.ts';

/** Whether something on the page has the focus, or had it when it vanished. */
const useFocusWithin = (): { readonly current: boolean } => {
  const isWithin = useRef(false);
  useEffect(() => {
    const take = ({ type }: Event): void => {
      isWithin.current = type === 'focusin';
    };
    addEventListener('focusin', take);
    addEventListener('focusout', take);
    return () => {
      removeEventListener('focusin', take);
      removeEventListener('focusout', take);
    };
  }, []);
  return isWithin;
};

/** Whether it is the next save of what was shown: nobody asked for it, and it takes no focus that was not there. */
const isNextSave = (stage: ScoreStage): boolean => {
  const file = fileIn(stage);
  return file !== null && viewOf(file)?.isHanded === true;
};

/**
 * Another view takes the place of the one that had the focus: its heading gets it, so that a keyboard and a reader go on
 * from there; or the field of the header by which the view was chosen.
 *
 * @returns to be told the name of such a field when it is used
 */
export const useViewFocus = (stage: ScoreStage, loaded: boolean): ((name: string) => void) => {
  const used = useRef<string | null>(null);
  const isWithin = useFocusWithin();
  const isSettled =
    stage.kind === 'parts' || stage.kind === 'refused' || (loaded && stage.kind.startsWith('open'));
  useEffect(() => {
    if (!isSettled) return;
    const name = used.current;
    const field = name === null ? null : document.querySelector<HTMLElement>(`header [name="${name}"]`);
    if (field !== null) used.current = null;
    if (document.activeElement !== document.body) return;
    if (isNextSave(stage) && !isWithin.current) return;
    (field ?? document.querySelector<HTMLElement>('h1'))?.focus({ preventScroll: true });
  }, [isSettled ? stage : null]);
  return (name) => {
    used.current = name;
  };
};
