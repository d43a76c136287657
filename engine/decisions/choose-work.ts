import type { Remark, Score } from '../score/model.ts';
import { isWorkEmpty, NO_WORK, type Work } from './model.ts';
import { type PlacedWork, placeWork } from './place-work.ts';
import { readSavedWork } from './read-work.ts';

/** The work that a part is planned and engraved by. */
export interface ChosenWork {
  readonly origin: 'own' | 'saved' | 'none';
  readonly work: Work;
  readonly placed: PlacedWork;
  /** What the user should know of the work that was saved in the file; nothing is remarked of his own. */
  readonly remarks: readonly Remark[];
}

/**
 * Chooses between the work that comes with a request and the one that is saved in the file: a work of one's own,
 * though it be empty, replaces what is saved.
 *
 * @param own null where the request says nothing
 */
export const chooseWork = (score: Score, own: Work | null, usesSaved: boolean): ChosenWork => {
  const saved = own === null && usesSaved ? readSavedWork(score).at(-1) : undefined;
  if (saved?.kind === 'work' && !isWorkEmpty(saved.work)) {
    const placed = placeWork(score, saved.work);
    const lost = placed.lost.map(({ sentence }) => remark(sentence));
    return {
      origin: 'saved',
      work: saved.work,
      placed,
      remarks: [remark(describeSaved(saved.work)), ...lost],
    };
  }
  const work = own ?? NO_WORK;
  return {
    origin: own === null ? 'none' : 'own',
    work,
    placed: placeWork(score, work),
    remarks:
      saved?.kind === 'broken'
        ? [remark(`The work saved in the file cannot be read and is set aside: ${saved.reason}.`)]
        : [],
  };
};

const remark = (message: string): Remark => ({ code: 'saved-work', bar: '', message });

const describeSaved = ({ pins, respell, leaveOut, settingsAt }: Work): string => {
  const counts = [
    count(pins.length, 'thing fixed', 'things fixed'),
    count(respell.length, 'string chosen', 'strings chosen'),
    count(leaveOut.length, 'note left out', 'notes left out'),
    count(settingsAt.length, 'full setting put or dropped', 'full settings put or dropped'),
  ].filter((each) => each !== '');
  return `The work saved in the file is used: ${counts.join(', ')}.`;
};

const count = (number: number, one: string, many: string): string =>
  number === 0 ? '' : `${number} ${number === 1 ? one : many}`;
