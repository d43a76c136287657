import type { Score } from '../score/model.ts';
import { WORK_LISTS, type Work } from './model.ts';
import { partKey, WORK_TARGET } from './read-work.ts';

/**
 * A work as the processing instruction that saves it in a score file: JSON in plain ASCII, in which nothing can end the
 * instruction or be taken for a tag. The same work gives the same text; lists without entries are left out.
 */
export const workInstruction = (score: Score, work: Work): string => {
  const lists = WORK_LISTS.filter((list) => work[list].length > 0).map((list) => [list, work[list]] as const);
  const json = JSON.stringify({ part: partKey(score), ...Object.fromEntries(lists) });
  const safe = json.replace(/[<>]|[^ -~]/gu, (character) =>
    // A character beyond the first 65,536 is two of these.
    [...Array(character.length).keys()]
      .map((i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, '0')}`)
      .join(''),
  );
  return `<?${WORK_TARGET} ${safe}?>`;
};
