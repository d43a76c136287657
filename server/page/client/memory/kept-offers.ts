import type { FixesReport } from '../../../api/answers/fixes.ts';
import { type Memory, putOnShelf, takeFromShelf } from './shelf.ts';

const SHELF = 'tringle offers';

/** The smallest changes that were found for a piece, and what had been asked. */
export interface KeptOffers {
  readonly question: string;
  readonly report: FixesReport;
}

const isKept = (found: unknown): found is KeptOffers => {
  const { question, report } = (found ?? {}) as Partial<KeptOffers>;
  // Earlier versions kept no warnings and no passages.
  const parts = [report?.places, report?.passages, report?.tempo?.left];
  return typeof question === 'string' && parts.every(Array.isArray);
};

/** Keeps what was found, which took some thirty plans for each place: a page that is loaded again need not ask again. */
export const keepOffers = (memory: Memory, key: string, offers: KeptOffers): boolean =>
  putOnShelf(memory, SHELF, key, offers);

/** Null where nothing was found. */
export const recallOffers = (memory: Memory, key: string): KeptOffers | null => {
  const found = takeFromShelf(memory, SHELF, key);
  return isKept(found) ? found : null;
};
