import { SOURCE_TYPES, type SourceKind } from '../../render/pure.ts';
import type { AnnotateChoice, MarkChoice, ProofChoice } from '../api/requests/options.ts';
import { fail, type Outcome } from '../service-problem.ts';
import type { MarkFormat, ProofFormat, ReplyAddress, ReplyFormat } from '../threads/job.ts';
import { EVENT_STREAM } from './event-stream.ts';

const SOURCE_KINDS = Object.keys(SOURCE_TYPES) as SourceKind[];

const SOURCES = SOURCE_KINDS.map((kind) => SOURCE_TYPES[kind]);

export type ReplyType =
  | 'application/pdf'
  | 'image/svg+xml'
  | 'image/png'
  | 'application/json'
  | 'application/zip'
  | typeof EVENT_STREAM
  | (typeof SOURCES)[number];

/** The media types the result for one harp comes in; the first is sent where the client has no wish. */
const PART_TYPES: readonly ReplyType[] = [
  'application/pdf',
  'image/svg+xml',
  'image/png',
  'application/json',
  EVENT_STREAM,
  ...SOURCES,
];

/** Those that hold one page. */
const PAGE_TYPES: readonly ReplyType[] = ['image/svg+xml', 'image/png'];

/** The same for all harps of a score, and for both players of a part. */
const HARPS_TYPES: readonly ReplyType[] = ['application/zip', ...SOURCES];

/** The media types that the client takes, best first. */
export interface AcceptedTypes {
  readonly best: ReplyType;
  /** Kinds of score files among them. */
  readonly sources: readonly SourceKind[];
}

/**
 * The media types the client takes (RFC 9110, 12.5.1).
 *
 * @param accepts the request's own comparison of its `Accept` with the types on offer, best first
 * @param several whether all harps of the score are wanted, or both players of a part
 * @returns the types, or `not-acceptable` with the types on offer
 */
export const chooseReplyType = (
  accepts: (types: string[]) => string | false,
  several: boolean,
): Outcome<AcceptedTypes> => {
  const offered = several ? HARPS_TYPES : PART_TYPES;
  const best = accepts([...offered]);
  const type = offered.find((each) => each === best);
  if (type === undefined) return fail({ code: 'not-acceptable', offered });
  const sources = SOURCE_KINDS.filter((kind) => accepts([SOURCE_TYPES[kind]]) !== false);
  return { ok: true, value: { best: type, sources } };
};

const misplaced = (option: string, value: unknown, belongs: string, type: ReplyType) =>
  fail({
    code: 'bad-option',
    option,
    value: String(value),
    expected: `it belongs to ${belongs}, not to ${type}`,
  });

/**
 * What is wished for, by media type and options.
 *
 * @returns the wish, or `bad-option` for an option of another media type
 */
export const readReplyFormat = (
  { best, sources }: AcceptedTypes,
  { page, pageOfBar, pages }: AnnotateChoice,
  address: ReplyAddress,
): Outcome<ReplyFormat> => {
  if (page !== undefined && !PAGE_TYPES.includes(best)) {
    return misplaced('page', page, PAGE_TYPES.join(' and '), best);
  }
  if (pages !== undefined && best !== 'application/json') {
    return misplaced('pages', pages, 'application/json', best);
  }
  if (pageOfBar !== undefined && best !== EVENT_STREAM) {
    return misplaced('pageOfBar', pageOfBar, EVENT_STREAM, best);
  }
  switch (best) {
    case 'application/zip':
    case 'application/pdf':
      return { ok: true, value: { kind: 'pdf' } };
    case 'image/svg+xml':
      return { ok: true, value: { kind: 'svg', page: page ?? 1, address } };
    case 'image/png':
      return { ok: true, value: { kind: 'png', page: page ?? 1, address } };
    case 'application/json':
      return { ok: true, value: { kind: 'report', withPages: pages !== 'none' } };
    case EVENT_STREAM:
      return { ok: true, value: { kind: 'pages' } };
    default:
      return { ok: true, value: { kind: 'source', kinds: sources } };
  }
};

/** A proofread score: the first is sent where the client has no wish. */
export const PROOF_TYPES: readonly ReplyType[] = [
  'application/json',
  'application/pdf',
  'image/svg+xml',
  ...SOURCES,
];

/**
 * The form in which a proofread score is wanted: who asks for a score file means the corrected one.
 *
 * @returns the wish, `not-acceptable`, or `bad-option` for an option of another media type
 */
export const readProofFormat = (
  accepts: (types: string[]) => string | false,
  { repair, edits, page }: ProofChoice,
  address: ReplyAddress,
): Outcome<ProofFormat> => {
  const offered = repair === true ? SOURCES : PROOF_TYPES;
  const best = accepts([...offered]);
  const type = offered.find((each) => each === best);
  if (type === undefined) return fail({ code: 'not-acceptable', offered });
  if (page !== undefined && type !== 'image/svg+xml') return misplaced('page', page, 'image/svg+xml', type);
  if (edits !== undefined && !SOURCES.some((source) => source === type))
    return misplaced('edits', edits, 'the corrected file', type);
  switch (type) {
    case 'application/json':
      return { ok: true, value: { kind: 'report' } };
    case 'application/pdf':
      return { ok: true, value: { kind: 'pdf' } };
    case 'image/svg+xml':
      return { ok: true, value: { kind: 'svg', page: page ?? 1, address } };
    default:
      return {
        ok: true,
        value: {
          kind: 'source',
          kinds: SOURCE_KINDS.filter((kind) => accepts([SOURCE_TYPES[kind]]) !== false),
        },
      };
  }
};

/** A marked attempt: the first is sent where the client has no wish. */
export const MARK_TYPES: readonly ReplyType[] = ['application/json', 'application/pdf', 'image/svg+xml'];

/**
 * The form in which a marked attempt is wanted.
 *
 * @returns the wish, `not-acceptable`, or `bad-option` for a page of another media type
 */
export const readMarkFormat = (
  accepts: (types: string[]) => string | false,
  { page }: MarkChoice,
  address: ReplyAddress,
): Outcome<MarkFormat> => {
  const best = accepts([...MARK_TYPES]);
  const type = MARK_TYPES.find((each) => each === best);
  if (type === undefined) return fail({ code: 'not-acceptable', offered: MARK_TYPES });
  if (type === 'image/svg+xml') return { ok: true, value: { kind: 'svg', page: page ?? 1, address } };
  if (page !== undefined) return misplaced('page', page, 'image/svg+xml', type);
  return { ok: true, value: { kind: type === 'application/pdf' ? 'pdf' : 'report' } };
};
