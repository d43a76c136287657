import type { MessagePort } from 'node:worker_threads';
import type { ArchiveEntry } from '../../engine/index.ts';
import type { ClassSetLook, ReadyPage, RefusedPiece } from '../../render/index.ts';
import type { HandoutName, SourceKind } from '../../render/pure.ts';
import type { CompareChoice } from '../api/answers/comparison.ts';
import type { DivideChoice } from '../api/answers/division.ts';
import type { GlissandoChoice } from '../api/answers/glissandi.ts';
import type { SettingAtBarChoice, SettingChoice } from '../api/answers/settings.ts';
import type { TunesChoice } from '../api/answers/tune-table.ts';
import type { HandoutChoice } from '../api/requests/handouts.ts';
import type {
  AnnotateChoice,
  FixesChoice,
  MarkChoice,
  PlanChoice,
  ProofChoice,
} from '../api/requests/options.ts';
import type { Outcome } from '../service-problem.ts';
import type { SharedEnd } from './helping/shared-tasks.ts';

/** An answer that is ready to be sent. */
export interface Reply {
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
}

/** Where a score was sent to: what links to its other pages are made of. */
export interface ReplyAddress {
  readonly path: string;
  /** What follows the question mark. */
  readonly query: string;
}

/** The form in which an annotated score is wanted. */
export type ReplyFormat =
  | { readonly kind: 'pdf' }
  /** One page as a drawing, or painted. */
  | { readonly kind: 'svg' | 'png'; readonly page: number; readonly address: ReplyAddress }
  | { readonly kind: 'report'; readonly withPages: boolean }
  /** Pages that are told as they are ready; the answer itself is what is told after the last. */
  | { readonly kind: 'pages' }
  /** Loose pages, to be bound into a class set. */
  | { readonly kind: 'piece' }
  /** The user's own file with markings in it, in the first of these kinds that can be made of it. */
  | { readonly kind: 'source'; readonly kinds: readonly SourceKind[] };

/** The form in which a proofread score is wanted. */
export type ProofFormat =
  | { readonly kind: 'report' }
  | { readonly kind: 'svg'; readonly page: number; readonly address: ReplyAddress }
  | Extract<ReplyFormat, { readonly kind: 'pdf' | 'source' }>;

/** The form in which a marked attempt is wanted. */
export type MarkFormat = Exclude<ProofFormat, { readonly kind: 'source' }>;

/** A score as it was sent. */
export interface ScoreFile {
  readonly bytes: Uint8Array;
  /** The title of a score that states none; empty where the file has no name. May be hostile. */
  readonly fileName: string;
}

/** One score to annotate. */
export interface AnnotateJob extends ScoreFile {
  readonly choice: AnnotateChoice;
  readonly format: ReplyFormat;
}

/** How a table of tunes can be had. */
export const TUNES_TYPES = ['application/json', 'text/csv', 'application/pdf'] as const;

export type TunesType = (typeof TUNES_TYPES)[number];

/** What is worked out, and drawn only where that is asked for by the way. */
export type ComputeJob =
  | (ScoreFile & { readonly kind: 'plan'; readonly choice: PlanChoice })
  | (ScoreFile & { readonly kind: 'proof'; readonly choice: ProofChoice; readonly format: ProofFormat })
  | (ScoreFile & { readonly kind: 'mark'; readonly choice: MarkChoice; readonly format: MarkFormat })
  | (ScoreFile & { readonly kind: 'compare'; readonly choice: CompareChoice })
  /** The table of a tune book in one of the media types. */
  | (ScoreFile & { readonly kind: 'tunes'; readonly choice: TunesChoice; readonly type: TunesType })
  | (ScoreFile & { readonly kind: 'fixes'; readonly choice: FixesChoice })
  | (ScoreFile & { readonly kind: 'setting-at-bar'; readonly choice: SettingAtBarChoice })
  | { readonly kind: 'setting'; readonly choice: SettingChoice }
  | (ScoreFile & { readonly kind: 'divide'; readonly choice: DivideChoice })
  | { readonly kind: 'glissandi'; readonly choice: GlissandoChoice }
  /** A wall chart; `page` where one page is wanted as a drawing, null for all of them as PDF. */
  | {
      readonly kind: 'handout';
      readonly name: HandoutName;
      readonly choice: Omit<HandoutChoice, 'page'>;
      readonly page: number | null;
      readonly address: ReplyAddress;
    }
  /** Pieces of a class set as they were drawn, and what was refused of it by its name, in the order of the set. */
  | {
      readonly kind: 'bind-set';
      readonly pieces: readonly Uint8Array[];
      readonly refused: readonly RefusedPiece[];
      readonly choice: ClassSetLook;
    }
  /** The score file out of a compressed score, so that it is known what is written in it. */
  | { readonly kind: 'unpack-score'; readonly bytes: Uint8Array }
  /** The tunes of a tune book, as JSON; an empty list for any other file. */
  | { readonly kind: 'list-tunes'; readonly bytes: Uint8Array }
  /** One score out of an archive: `bytes` is the stretch that holds it. */
  | { readonly kind: 'unpack'; readonly bytes: Uint8Array; readonly entry: ArchiveEntry };

/** The parts of the work, in their order: reading, planning, laying out with drawing, writing the result. */
export const STAGES = ['read', 'plan', 'engrave', 'write'] as const;

export type Stage = (typeof STAGES)[number];

/** Told when a stage begins. */
export interface Progress {
  readonly stage: Stage;
  /** Bars of the score; null until it is read. */
  readonly bars: number | null;
}

/** What is told of a job while it is worked on. */
export type Told = Progress | ReadyPage;

/** What a thread is handed. */
export interface WorkerMessage<Job> {
  readonly job: Job;
  /** Where what is `Told` goes; null where nobody listens. */
  readonly port: MessagePort | null;
  /** Where another thread may help; null where none does. */
  readonly help: SharedEnd | null;
}

/** What a thread hands back. */
export interface JobResult {
  readonly outcome: Outcome<Reply>;
  /** Seconds that each stage took. */
  readonly seconds: Readonly<Partial<Record<Stage, number>>>;
}

/** Does a job; gives up with `cancelled` when the signal fires. All that is told comes before the outcome. */
export type Perform<Job> = (
  job: Job,
  signal: AbortSignal,
  onProgress?: (progress: Progress) => void,
  onPage?: (page: ReadyPage) => void,
) => Promise<Outcome<Reply>>;
