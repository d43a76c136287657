import type {
  ChosenDecisions,
  Decisions,
  FollowedBars,
  HarpName,
  PartSummary,
  Plan,
  TuneSummary,
} from '../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import type { LeverChoices, PlanChoices } from '../options/choices.ts';
import type { LeverPlanning } from './lever-planner.ts';
import type { Planning, ReadPart } from './planned-part.ts';

/** What the page asks of the engine's thread. */
export type EngineRequest = {
  /** Counted up by the page: answers to an older request are passed over. */
  readonly request: number;
} & (
  | {
      readonly kind: 'open';
      /** For the pedal harp, and for the lever harp: which of them it is shows when it was read. */
      readonly choices: PlanChoices;
      readonly leverChoices: LeverChoices;
      readonly bytes: Uint8Array;
      readonly fileName: string;
      readonly part: string | null;
      /** Number of the tune that was chosen in a tune book. */
      readonly tune: string | null;
      /** Number of the movement that was chosen; null for the first. */
      readonly movement: string | null;
      /** The harp that the user named; null where the part's name and sound tell. */
      readonly instrument: HarpName | null;
      /** The user's decisions that the browser kept; null where it kept none. */
      readonly kept: Decisions | null;
      /**
       * It takes the place of the open score, which stays open if it cannot be read: the request by which that one was
       * opened, which the decisions are about. Null where it takes no other's place.
       */
      readonly renews: number | null;
    }
  /** Plans the open score anew; or otherwise, to compare with: its own plan stays. */
  | { readonly kind: 'replan' | 'plan-other'; readonly decisions: Decisions; readonly choices: PlanChoices }
  | {
      readonly kind: 'replan-levers' | 'plan-other-levers';
      readonly decisions: Decisions;
      readonly choices: LeverChoices;
    }
);

export type EngineStage = 'reading' | 'planning';

/** A score that was read, and its first plan. */
export interface OpenedPart {
  readonly part: ReadPart;
  readonly planning: Planning;
  readonly harp: HarpName;
  readonly decisions: Decisions;
  /** Where the decisions came from: the browser kept them, the file held them, or there are none yet. */
  readonly origin: ChosenDecisions['origin'];
  /** All tunes of the book that the piece is from; empty for other files. */
  readonly tunes: readonly TuneSummary[];
}

/** A part for the lever harp that was read, and its first plan. */
export interface OpenedLevers extends Omit<OpenedPart, 'planning'> {
  readonly planning: LeverPlanning;
  /** Whether the harp is that of all tunes, since neither the user nor the part names one: the service has to be told. */
  readonly isHarpOfTunes: boolean;
}

/** What was worked out anew. */
export type Replanning = Omit<Planning, 'needs'> & { readonly needs: Planning['needs'] | null };

/** Of a score that takes the place of another: what is otherwise in its plan, and where the bars of the other went. */
export interface Renewed {
  readonly changes: readonly string[];
  readonly bars: FollowedBars | null;
}

/** What the engine's thread tells. Of a score that takes the place of another, what is otherwise in its plan. */
export type EngineReport = { readonly request: number } & (
  | { readonly kind: 'stage'; readonly stage: EngineStage }
  | ({ readonly kind: 'opened'; readonly opened: OpenedPart } & Renewed)
  | ({ readonly kind: 'opened-levers'; readonly opened: OpenedLevers } & Renewed)
  /** Needs are left out where they are the same as in the report before. */
  | { readonly kind: 'replanned'; readonly planning: Replanning }
  | { readonly kind: 'replanned-levers'; readonly planning: LeverPlanning }
  | { readonly kind: 'planned-other'; readonly plan: Plan }
  | { readonly kind: 'planned-other-levers'; readonly report: LeverPlanReport }
  /** `silentHarp` names the part that is the harp, but has no notes; null where no part is named as one. */
  | { readonly kind: 'parts'; readonly parts: readonly PartSummary[]; readonly silentHarp: string | null }
  /** The file is a tune book. */
  | { readonly kind: 'tunes'; readonly tunes: readonly TuneSummary[] }
  | { readonly kind: 'refused'; readonly sentence: string }
);
