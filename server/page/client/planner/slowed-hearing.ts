import {
  buildPlayback,
  type Decisions,
  NO_DECISIONS,
  type Playback,
  placeDecisions,
  type Score,
  slowDown,
} from '../../../../engine/index.ts';

/** What is heard of a score with passages slowed; null where none is. */
export const createSlowedHearing = (score: Score): ((tempos: Decisions['tempos']) => Playback | null) => {
  const hear = keepLatest((tempos: Decisions['tempos']) =>
    buildPlayback(slowDown(score, placeDecisions(score, { ...NO_DECISIONS, tempos }).tempos)),
  );
  return (tempos) => (tempos.length === 0 ? null : hear(tempos));
};

/** Keeps its latest answer, for a question of plain data. */
export const keepLatest = <Question, Answer>(answer: (question: Question) => Answer) => {
  let latest: { readonly key: string; readonly answer: Answer } | null = null;
  return (question: Question): Answer => {
    const key = JSON.stringify(question);
    latest = latest?.key === key ? latest : { key, answer: answer(question) };
    return latest.answer;
  };
};
