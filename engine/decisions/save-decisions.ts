import type { Score } from '../score/model/score.ts';
import { DECISION_LISTS, type Decisions } from './model.ts';
import { DECISIONS_TARGET, partKey } from './read-saved-decisions.ts';

/**
 * Decisions as the processing instruction that saves them in a score file: JSON in plain ASCII, in which nothing can end the
 * instruction or be taken for a tag. The same decisions give the same text; lists without entries are left out.
 */
export const decisionsInstruction = (score: Score, decisions: Decisions): string => {
  const lists = DECISION_LISTS.filter((list) => decisions[list].length > 0).map(
    (list) => [list, decisions[list]] as const,
  );
  const json = JSON.stringify({ part: partKey(score), ...Object.fromEntries(lists) });
  const safe = json.replace(/[<>]|[^ -~]/gu, (character) =>
    // A character beyond the first 65,536 is two of these.
    [...Array(character.length).keys()]
      .map((i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, '0')}`)
      .join(''),
  );
  return `<?${DECISIONS_TARGET} ${safe}?>`;
};
