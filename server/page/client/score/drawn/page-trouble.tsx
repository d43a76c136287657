import { STRINGS } from '../../../strings/strings.ts';

/** Why the pages are not those that were asked for, and another try. */
export const PageTrouble = ({
  sentence,
  onAgain,
}: {
  /** Null where nothing is wrong. */
  readonly sentence: string | null;
  readonly onAgain: () => void;
}) =>
  sentence === null ? null : (
    <div class="refused" role="alert">
      <p>{sentence}</p>
      <button type="button" onClick={onAgain}>
        {STRINGS.score.again}
      </button>
    </div>
  );
