import type { TuneSummary } from '../../engine/index.ts';
import { SOURCE_TYPES } from '../../render/pure.ts';
import type { AnnotateChoice } from '../api/requests/options.ts';
import type { AnyProblem, Outcome } from '../service-problem.ts';
import type { Reply, ReplyFormat, Stage } from '../threads/job.ts';

/** What the scores of a job are to become. */
export const JOB_OUTPUTS = ['pdf', 'report', 'source', 'class-set'] as const;

export type JobOutput = (typeof JOB_OUTPUTS)[number];

/** Media types in which a score of a job can come back. */
export const TYPES_OF_OUTPUT: Readonly<Record<JobOutput, readonly string[]>> = {
  pdf: ['application/pdf'],
  report: ['application/json'],
  source: Object.values(SOURCE_TYPES),
  'class-set': ['application/pdf'],
};

/** What a job is to do, apart from the bytes of its scores. */
export interface JobRequest {
  /** Name of the file that was sent; may be empty. */
  readonly fileName: string;
  readonly choice: AnnotateChoice;
  readonly output: JobOutput;
  /** Which tunes of tune books are wanted, by number or title; all if not given. */
  readonly tunes?: readonly string[];
  /** What a class set is called. */
  readonly setTitle?: string;
}

export const replyFormatOf = (output: JobOutput): ReplyFormat => {
  switch (output) {
    case 'pdf':
      return { kind: 'pdf' };
    case 'report':
      return { kind: 'report', withPages: true };
    case 'class-set':
      return { kind: 'piece' };
    case 'source':
      return { kind: 'source', kinds: ['musicxml', 'mxl', 'mei'] };
  }
};

/** How far one score of a job is; `skipped` is what came with the scores and is none. */
export interface JobFile {
  readonly name: string;
  /** The tune of a tune book that was taken apart. */
  readonly tune: TuneSummary | null;
  readonly state: 'waiting' | 'working' | 'done' | 'failed' | 'skipped';
  readonly stage: Stage | null;
  /** Bars of the score; null until it is read. */
  readonly bars: number | null;
  /** Why it failed. */
  readonly problem: AnyProblem | null;
  /** Header fields of its result; null where there is none. The body is kept by `resultKey`. */
  readonly headers: Reply['headers'] | null;
}

export type JobState = 'waiting' | 'working' | 'done' | 'failed';

export interface JobStatus {
  readonly id: string;
  readonly state: JobState;
  /** Milliseconds since 1970. */
  readonly createdAt: number;
  /** When its results are thrown away; null before it has ended. */
  readonly expiresAt: number | null;
  /** The scores, and then what was passed over; empty until the job is looked into. */
  readonly files: readonly JobFile[];
}

/** A file that nothing has befallen. */
export const newJobFile = (name: string, state: 'waiting' | 'skipped'): JobFile => ({
  name,
  tune: null,
  state,
  stage: null,
  bars: null,
  problem: null,
  headers: null,
});

/** A problem that befell a whole job is told as that of a single file of its name. */
export const failedFile = (name: string, problem: AnyProblem): JobFile => ({
  name,
  tune: null,
  state: 'failed',
  stage: null,
  bars: null,
  problem,
  headers: null,
});

/** Jobs that are done one after the other, wherever. */
export interface JobQueue {
  /** @returns the job's id, or `busy` or `storage-full` */
  readonly submit: (order: JobRequest, bytes: Uint8Array) => Promise<Outcome<string>>;
  readonly find: (id: string) => Promise<JobStatus | null>;
  /** The result of one file of a job, by its index; null where there is none. */
  readonly readResult: (id: string, file: number) => Promise<Uint8Array | null>;
  /** Gives a job up and forgets it. @returns whether there was one */
  readonly cancel: (id: string) => Promise<boolean>;
  /** How many jobs wait and are worked on. */
  readonly count: () => Promise<{ readonly waiting: number; readonly working: number }>;
  /** Whether jobs can be taken. */
  readonly isReady: () => Promise<boolean>;
  /** Takes no more; lets the jobs under way end within so many milliseconds. */
  readonly close: (graceMs: number) => Promise<void>;
}

export const inputKey = (id: string): string => `${id}.input`;

export const resultKey = (id: string, file: number): string => `${id}.${file}`;

/** Keeps bytes by a key, for as long as jobs need them. */
export interface BlobStore {
  /** @returns `storage-full` where there is no room */
  readonly put: (key: string, bytes: Uint8Array) => Promise<Outcome<null>>;
  readonly get: (key: string) => Promise<Uint8Array | null>;
  readonly remove: (keys: readonly string[]) => Promise<void>;
}
