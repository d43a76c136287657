import { type Remark, remarkOnAll } from '../score/model/remark.ts';
import type { Score } from '../score/model/score.ts';
import { nameCount } from '../words/counts.ts';
import { type Decisions, hasNoDecisions, NO_DECISIONS } from './model.ts';
import { type PlacedDecisions, placeDecisions } from './place-decisions.ts';
import { readSavedDecisions } from './read-saved-decisions.ts';
import { withoutUnplaced } from './unplaced-decisions.ts';

/** The decisions that a part is planned and engraved by. */
export interface ChosenDecisions {
  readonly origin: 'own' | 'saved' | 'none';
  readonly decisions: Decisions;
  readonly placed: PlacedDecisions;
  /** What the user should know of the decisions that were saved in the file; none is made of the user’s own. */
  readonly remarks: readonly Remark[];
}

/**
 * Chooses between the decisions that come with a request and those saved in the file: a request's own, even if there
 * are none in its lists, replace what is saved.
 *
 * @param own null where the request says nothing
 */
export const chooseDecisions = (score: Score, own: Decisions | null, usesSaved: boolean): ChosenDecisions => {
  const saved = own === null && usesSaved ? readSavedDecisions(score).at(-1) : undefined;
  if (saved?.kind === 'decisions' && !hasNoDecisions(saved.decisions)) {
    const placed = placeDecisions(score, saved.decisions);
    const lost = placed.unplaced.map(({ sentence }) => remark(sentence));
    return {
      origin: 'saved',
      decisions: saved.decisions,
      placed,
      remarks: [remark(describeSaved(saved.decisions)), ...lost],
    };
  }
  const decisions = own ?? NO_DECISIONS;
  return {
    origin: own === null ? 'none' : 'own',
    decisions,
    placed: placeDecisions(score, decisions),
    remarks:
      saved?.kind === 'broken'
        ? [remark(`The decisions saved in the file cannot be read and are ignored: ${saved.reason}.`)]
        : [],
  };
};

/**
 * What concerns one player of a part of the decisions on the whole of it: each respelling, and all else about notes, stays
 * with the player who has these.
 */
export const decisionsOnShare = (chosen: ChosenDecisions, share: Score): ChosenDecisions => {
  const placed = placeDecisions(share, chosen.decisions);
  const decisions = withoutUnplaced(chosen.decisions, placed.unplaced);
  return { ...chosen, decisions, placed: { ...placed, unplaced: [] } };
};

const remark = (message: string): Remark => remarkOnAll('saved-decisions', message);

const describeSaved = ({
  pins,
  respell,
  omit,
  delays,
  fullSettings,
  cueParts,
  tempos,
}: Decisions): string => {
  const counts = [
    ...told(pins, 'pin', 'pins'),
    ...told(respell, 'note respelled', 'notes respelled'),
    ...told(omit, 'note left out', 'notes left out'),
    ...told(delays, 'delay of notes', 'delays of notes'),
    ...told(fullSettings, 'full setting added or removed', 'full settings added or removed'),
    ...told(cueParts, 'cue chosen', 'cues chosen'),
    ...told(tempos, 'passage slowed', 'passages slowed'),
  ];
  return `The plan follows the decisions saved in the file: ${counts.join(', ')}.`;
};

const told = ({ length }: readonly unknown[], one: string, several: string): readonly string[] =>
  length === 0 ? [] : [nameCount(length, one, several)];
