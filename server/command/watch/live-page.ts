import type { Address } from '../../address.ts';
import { type FollowedScore, followScore } from '../../followed-score.ts';
import { startService } from '../../serve.ts';
import { readSettings } from '../../settings.ts';
import type { Read } from '../arguments/choice.ts';
import { EXIT } from '../exit.ts';
import { resultOfSystemError } from '../system-error.ts';

/** The web page that shows a file live. */
export interface LivePage {
  readonly url: string;
  readonly score: FollowedScore;
  readonly close: () => Promise<void>;
}

/** The name by which the page's address tells it what to follow; the page reads it. */
const pageAddress = (service: string, token: string): string => `${service}/?follow=${token}`;

/** Starts the service with a page that follows a file. */
export const openLivePage = async (
  address: Address,
  ...followed: Parameters<typeof followScore>
): Promise<Read<LivePage>> => {
  const read = readSettings(process.env);
  if (!read.ok) return { ok: false, ending: { code: EXIT.usage, message: read.wrong.join('; ') } };
  const score = followScore(...followed);
  // What is printed are the changes: a line for each request would bury them.
  const settings = process.env.LOG_LEVEL === undefined ? { LOG_LEVEL: 'warn' as const } : {};
  try {
    const service = await startService(address, { ...read.settings, ...settings }, score);
    return {
      ok: true,
      value: {
        url: pageAddress(service.url, score.token),
        score,
        close: () => {
          score.end();
          return service.close();
        },
      },
    };
  } catch (error) {
    const doing = `cannot listen on ${address.host}, port ${address.port}`;
    return { ok: false, ending: resultOfSystemError(doing, error) };
  }
};
