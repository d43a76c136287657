import { useEffect, useMemo, useState } from 'preact/hooks';
import type { DecisionHistory } from '../decisions/history/decision-history.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { browserMemory } from './browser-memory.ts';
import { keepDecisions, keyOfFile } from './kept-decisions.ts';
import { keepHistory } from './session-history.ts';

/** Keeps the decisions in this session and in the browser, from the first decision on. @returns whether that could be done */
export const useKeeping = (file: ScoreFile, history: DecisionHistory): boolean => {
  const [kept, setKept] = useState(true);
  const key = useMemo(() => keyOfFile(file), [file]);
  useEffect(() => {
    if (history.latest === null) return;
    keepHistory(file, history);
    setKept(keepDecisions(browserMemory, key, history.present));
  }, [history]);
  return kept;
};
