import { decline, type Outcome } from './service-problem.ts';

/** The media types a result comes in; the first is sent where the client has no wish. */
export const REPLY_TYPES = ['application/pdf', 'image/svg+xml', 'application/json'] as const;

export type ReplyType = (typeof REPLY_TYPES)[number];

/**
 * The media type the client likes best (RFC 9110, 12.5.1).
 *
 * @param accepts the request's own comparison of its `Accept` with the types on offer, best first
 * @returns the type, or `not-acceptable` with the types on offer
 */
export const chooseReplyType = (accepts: (types: string[]) => string | false): Outcome<ReplyType> => {
  const best = accepts([...REPLY_TYPES]);
  const type = REPLY_TYPES.find((offered) => offered === best);
  return type === undefined
    ? decline({ code: 'not-acceptable', offered: REPLY_TYPES })
    : { ok: true, value: type };
};
