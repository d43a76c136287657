import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { resolve } from 'node:path';
import type { Decisions } from '../engine/index.ts';
import type { PlanChoice } from './api/requests/options.ts';
import type { ScoreFile } from './threads/job.ts';

/** What of the options of the command says which music of the file is read, for which harp, and what was decided about it. */
export type FollowedChoice = {
  readonly [Name in 'part' | 'tune' | 'movement' | 'instrument']: PlanChoice[Name] | undefined;
} & { readonly decided: Decisions | undefined };

/** What the page is told of a file that a command follows. */
export type FollowedEvent =
  /** It was saved: the bytes are there to be fetched. */
  | { readonly kind: 'saved' }
  /** It cannot be read; the sentence says why. */
  | { readonly kind: 'gone'; readonly sentence: string }
  /** The command has ended. */
  | { readonly kind: 'end' };

/** A file that a command follows, for the page that shows it live. */
export interface FollowedScore {
  /** The same for the same file with the same decisions at any time, so that the browser knows it again; it tells nothing of the path. */
  readonly id: string;
  readonly fileName: string;
  readonly choice: FollowedChoice;
  /** Unguessable: who bears it may read the file. */
  readonly token: string;
  /** Takes the same time for any wrong token. */
  readonly isToken: (token: string) => boolean;
  /** The latest bytes; null until it was read. */
  readonly bytes: () => Uint8Array | null;
  readonly save: (file: ScoreFile) => void;
  readonly lose: (sentence: string) => void;
  /** Tells the end to all who listen. */
  readonly end: () => void;
  /** Tells how it is now, and then whatever becomes of it. @returns ends that */
  readonly listen: (tell: (event: FollowedEvent) => void) => () => void;
}

const digestOf = (text: string): Buffer => createHash('sha256').update(text).digest();

/** @param path as the user gave it */
export const followScore = (path: string, fileName: string, choice: FollowedChoice): FollowedScore => {
  const token = randomBytes(24).toString('base64url');
  const wanted = digestOf(token);
  const listeners = new Set<(event: FollowedEvent) => void>();
  let bytes: Uint8Array | null = null;
  let latest: FollowedEvent | null = null;
  const tell = (event: FollowedEvent): void => {
    latest = event;
    for (const listener of listeners) listener(event);
  };
  return {
    id: digestOf(`${resolve(path)}${choice.decided === undefined ? '' : JSON.stringify(choice.decided)}`)
      .toString('base64url')
      .slice(0, 16),
    fileName,
    choice,
    token,
    isToken: (given) => timingSafeEqual(digestOf(given), wanted),
    bytes: () => bytes,
    save: (file) => {
      bytes = file.bytes;
      tell({ kind: 'saved' });
    },
    lose: (sentence) => tell({ kind: 'gone', sentence }),
    end: () => tell({ kind: 'end' }),
    listen: (listener) => {
      listeners.add(listener);
      if (bytes !== null) listener({ kind: 'saved' });
      if (latest !== null && latest.kind !== 'saved') listener(latest);
      return () => listeners.delete(listener);
    },
  };
};
