import { render } from 'preact';
import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';

/**
 * Prints the list of moves: for as long as it prints, the list stands in the page, seen on paper alone, and all else is
 * left out (see `print.css`). No window opens.
 */
const printList = async (part: PlannedPart, fileName: string): Promise<void> => {
  const { MoveList } = await import('./move-list.tsx');
  document.querySelector('body > .move-list')?.remove();
  const paper = document.createElement('div');
  paper.className = 'move-list';
  document.body.append(paper);
  render(<MoveList part={part} fileName={fileName} />, paper);
  addEventListener(
    'afterprint',
    () => {
      render(null, paper);
      paper.remove();
    },
    { once: true },
  );
  print();
};

/** The button that prints the list of moves. */
export const PrintMoves = ({ part, fileName }: { readonly part: PlannedPart; readonly fileName: string }) => {
  const [failed, setFailed] = useState(false);
  const start = (): void => {
    setFailed(false);
    printList(part, fileName).catch(() => setFailed(true));
  };
  return (
    <>
      <button type="button" onClick={start}>
        {STRINGS.take.print}
      </button>
      {failed && <p role="alert">{STRINGS.printed.failed}</p>}
    </>
  );
};
