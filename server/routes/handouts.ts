import type { RequestHandler } from 'express';
import { HANDOUT_NAMES } from '../../render/pure.ts';
import { handoutOptions } from '../api/requests/handouts.ts';
import { readOptions } from '../api/requests/read-options.ts';
import { etagOf } from '../http/etag.ts';
import { disconnectSignal } from '../http/protect.ts';
import { answer, handle, problemAnswer, queryOf, setEtag } from '../http/send.ts';
import { fail } from '../service-problem.ts';
import type { ScoreDependencies } from './scores.ts';

const TYPES = ['application/pdf', 'image/svg+xml'];

/** Wall charts, made when they are asked for. */
export const handoutHandler = (parts: Pick<ScoreDependencies, 'compute'>): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const name = HANDOUT_NAMES.find((each) => each === request.params.name);
    if (name === undefined) return problemAnswer({ code: 'not-found', path: request.path });
    const type = request.accepts(TYPES);
    if (type === false) return problemAnswer({ code: 'not-acceptable', offered: TYPES });
    const address = { path: request.path, query: queryOf(request) };
    const read = readOptions(handoutOptions, address.query, null);
    if (!read.ok) return problemAnswer(read.problem);
    const { page: wanted, ...choice } = read.value;
    if (wanted !== undefined && type === 'application/pdf') {
      const misplaced = fail({
        code: 'bad-option',
        option: 'page',
        value: `${wanted}`,
        expected: `it belongs to image/svg+xml, not to ${type}`,
      });
      return problemAnswer(misplaced.problem);
    }
    const page = type === 'application/pdf' ? null : (wanted ?? 1);
    if (setEtag(request, response, etagOf({ name, choice, page }, null))) return { kind: 'known' };
    const made = await parts.compute(
      { kind: 'handout', name, choice, page, address },
      disconnectSignal(response),
    );
    return made.ok ? answer(made.value) : problemAnswer(made.problem);
  });
