import { useEffect, useState } from 'preact/hooks';
import type { Answer } from '../service/annotate-request.ts';

/** How far a question to the service is. */
export type Asked<T> =
  | { readonly kind: 'no' | 'asking' }
  | { readonly kind: 'ready'; readonly answer: T }
  | { readonly kind: 'failed'; readonly sentence: string };

/**
 * Asks the service when it is told to, or at once; a question whose asker is gone is given up.
 *
 * @param begin with a question, or with what is known already
 * @returns how far it is, and what asks (again)
 */
export const useAnswer = <T>(
  fetchAnswer: (signal: AbortSignal) => Promise<Answer<T>>,
  begin: Asked<T>,
): readonly [Asked<T>, () => void] => {
  const [asked, setAsked] = useState(begin);
  useEffect(() => {
    if (asked.kind !== 'asking') return;
    const leaving = new AbortController();
    void fetchAnswer(leaving.signal).then(
      (answer) =>
        setAsked(
          answer.ok ? { kind: 'ready', answer: answer.value } : { kind: 'failed', sentence: answer.sentence },
        ),
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [asked.kind === 'asking']);
  return [asked, () => setAsked({ kind: 'asking' })];
};
