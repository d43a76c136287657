import type { PartSummary } from '../../../engine/problem.ts';
import type { PlannedPart } from './planned-part.ts';

/** What the page asks of the engine's thread. */
export interface OpenRequest {
  readonly kind: 'open';
  /** Counted up by the page: answers to an older request are passed over. */
  readonly request: number;
  readonly bytes: Uint8Array;
  readonly part: string | null;
}

export type EngineStage = 'reading' | 'planning';

/** What the engine's thread tells. */
export type EngineReport = { readonly request: number } & (
  | { readonly kind: 'stage'; readonly stage: EngineStage }
  | { readonly kind: 'planned'; readonly part: PlannedPart }
  | { readonly kind: 'parts'; readonly parts: readonly PartSummary[] }
  | { readonly kind: 'refused'; readonly sentence: string }
);
