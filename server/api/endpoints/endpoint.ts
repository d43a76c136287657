import type * as z from 'zod';
import type { AnyProblemCode } from '../../service-problem.ts';

/** What a body holds: JSON of a schema, text, or bytes. */
export type Content = z.ZodType | 'text' | 'bytes' | Events;

/** Server-sent events: the data of each by its name. */
export interface Events {
  readonly events: Readonly<Record<string, z.ZodType>>;
}

interface EndpointAnswer {
  readonly status: number;
  readonly description: string;
  /** By media type. */
  readonly content: Readonly<Record<string, Content>>;
  /** What headers of its own tell, by name. */
  readonly headers?: Readonly<Record<string, string>>;
}

/** By these the service finds what answers an endpoint (`server/app.ts`), and programs name their calls. */
export type EndpointId =
  | 'annotate'
  | 'plan'
  | 'proof'
  | 'mark'
  | 'compare'
  | 'tunes'
  | 'fixes'
  | 'divide'
  | 'glissandi'
  | 'setting'
  | 'setting-at-bar'
  | 'handout'
  | 'instruments'
  | 'submit-job'
  | 'job'
  | 'job-events'
  | 'job-result'
  | 'cancel-job'
  | 'health'
  | 'readiness'
  | 'metrics'
  | 'openapi'
  | 'docs';

/** One thing that can be asked of the service. */
export interface Endpoint {
  readonly id: EndpointId;
  readonly method: 'get' | 'post' | 'delete';
  /** Parameters of the path stand in braces. */
  readonly path: string;
  readonly summary: string;
  readonly description: string;
  readonly options: z.ZodObject | null;
  /** Media types of the body, a form apart; null where there is none. */
  readonly upload: readonly string[] | null;
  readonly answers: readonly EndpointAnswer[];
  readonly problems: readonly AnyProblemCode[];
  /** Whether it asks for a key, where the service has keys. */
  readonly guarded: boolean;
}

/** An answer of JSON. */
export const json = (schema: z.ZodType, description: string, status = 200): EndpointAnswer => ({
  status,
  description,
  content: { 'application/json': schema },
});

/** What whoever has the answer already is told. */
export const KNOWN: EndpointAnswer = {
  status: 304,
  description: 'Your copy is still right: its ETag was sent as If-None-Match.',
  content: {},
};
