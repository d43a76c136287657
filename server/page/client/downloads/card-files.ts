import { STRINGS } from '../../strings/strings.ts';
import type { Answer, FetchedFile } from '../service/annotate-request.ts';
import type { TakenFile } from './file-buttons.tsx';
import type { NameDownload } from './naming.ts';
import { saveAnswer } from './taken-files.ts';

const KINDS = [
  ['SVG', 'image/svg+xml'],
  ['PNG', 'image/png'],
] as const;

/** The summary card of a piece, drawn or painted. */
export const cardFiles = (
  fetchCard: (accept: string, signal: AbortSignal) => Promise<Answer<FetchedFile>>,
  name: NameDownload,
): readonly TakenFile[] =>
  KINDS.map(([kind, mediaType]) => ({
    what: STRINGS.take.card(kind),
    ready: true,
    save: async (signal) => saveAnswer(await fetchCard(mediaType, signal), name),
  }));
