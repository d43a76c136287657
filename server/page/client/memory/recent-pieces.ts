import { createStore, del, entries, get, set, type UseStore } from 'idb-keyval';
import type { ScoreFile } from '../service/annotate-request.ts';
import { keyOfFile } from './kept-decisions.ts';

/** A piece that was opened in this browser, with its file. */
export interface RecentPiece {
  /** By which it is known again; also what the address names. */
  readonly key: string;
  readonly file: ScoreFile;
  readonly title: string;
  /** When it was opened last, in ms since 1970. */
  readonly openedAt: number;
}

/** Pieces, and bytes of all of them together; the ones opened longest ago are given up. */
const MOST_PIECES = 12;
const MOST_BYTES = 40_000_000;

let store: UseStore | null = null;

const pieces = (): UseStore => {
  store ??= createStore('tringle', 'pieces');
  return store;
};

/** A browser may refuse to store anything: then nothing is recent. */
const otherwise =
  <T>(value: T) =>
  (): T =>
    value;

const latestFirst = (a: RecentPiece, b: RecentPiece): number => b.openedAt - a.openedAt;

export const listRecent = async (): Promise<readonly RecentPiece[]> =>
  (await entries<string, RecentPiece>(pieces()).catch(otherwise([])))
    .map(([, piece]) => piece)
    .sort(latestFirst);

export const recallPiece = async (key: string): Promise<RecentPiece | null> =>
  (await get<RecentPiece>(key, pieces()).catch(otherwise(undefined))) ?? null;

export const forgetPiece = (key: string): Promise<void> => del(key, pieces()).catch(otherwise(undefined));

/** Keeps a piece, and gives up those for which there is no more room. */
export const keepPiece = async (file: ScoreFile, title: string): Promise<void> => {
  const key = keyOfFile(file);
  const piece = { key, file, title: title || file.name, openedAt: Date.now() };
  await set(key, piece, pieces()).catch(otherwise(undefined));
  let [count, bytes] = [0, 0];
  for (const each of await listRecent()) {
    count += 1;
    bytes += each.file.bytes.length;
    if (each.key !== key && (count > MOST_PIECES || bytes > MOST_BYTES)) await forgetPiece(each.key);
  }
};
