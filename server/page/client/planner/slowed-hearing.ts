import {
  buildPlayback,
  type Decisions,
  delayNotes,
  NO_DECISIONS,
  type Playback,
  placeDecisions,
  type Score,
  slowDown,
} from '../../../../engine/index.ts';

/** What is heard of a score with passages slowed and notes that wait; null where neither is. */
export const createSlowedHearing = (score: Score): ((decisions: Timing) => Playback | null) => {
  const hear = keepLatest((timing: Timing) => {
    const { tempos, delays } = placeDecisions(score, { ...NO_DECISIONS, ...timing });
    return buildPlayback(delayNotes(slowDown(score, tempos), delays));
  });
  return ({ tempos, delays }) => (tempos.length + delays.length === 0 ? null : hear({ tempos, delays }));
};

/** The decisions on when notes sound. */
type Timing = Pick<Decisions, 'tempos' | 'delays'>;

/** Keeps its latest answer, for a question of plain data. */
export const keepLatest = <Question, Answer>(answer: (question: Question) => Answer) => {
  let latest: { readonly key: string; readonly answer: Answer } | null = null;
  return (question: Question): Answer => {
    const key = JSON.stringify(question);
    latest = latest?.key === key ? latest : { key, answer: answer(question) };
    return latest.answer;
  };
};
