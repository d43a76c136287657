import { useMemo } from 'preact/hooks';
import type { ProofReport } from '../../../api/answers/proof-report.ts';
import { type Asked, useAnswer } from '../controls/asked-answer.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { fetchProof } from './proof-request.ts';

/** How far the proofreading of the file's own markings is; null where it brings none. */
export interface AskedProof {
  readonly asked: Asked<ProofReport>;
  readonly askAgain: () => void;
}

/** Asks at once, since who opens a file with markings of its own wants to know how they fare. */
export const useAskedProof = (
  file: ScoreFile,
  { markings }: Pick<ReadPart, 'markings'>,
): AskedProof | null => {
  const [asked, askAgain] = useAnswer((signal) => fetchProof(file, signal), {
    kind: markings > 0 ? 'asking' : 'no',
  });
  return useMemo(() => (markings > 0 ? { asked, askAgain } : null), [asked, markings]);
};
