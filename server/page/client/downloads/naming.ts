import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { nameOfHarp } from '../opening/harp-names.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { nameAfterFile } from './file-names.ts';

/** Gives a download its name, from its ending. */
export type NameDownload = (ending: string) => string;

/** How the downloads of an open piece are named. */
export interface Naming {
  /** @param what what is made of the part; none for the part itself */
  readonly ofPart: (what?: string) => NameDownload;
  /** Of all parts of the piece. */
  readonly ofPiece: (what: string) => NameDownload;
}

/** Names for what is made of a whole file. @param what none for what the file itself is about */
export const nameOfFile =
  (file: Pick<ScoreFile, 'name'>, what: string | null = null): NameDownload =>
  (ending) =>
    nameAfterFile(file.name, [], what, ending);

/** The tune or the movement that is open; empty where the file has one piece. */
const pieceWithin = ({ tune, movement }: ScoreFile, { titles, movements }: NamedPart): string => {
  if (tune !== undefined) return titles.title;
  return movement === undefined ? '' : movements?.[Number(movement) - 1] || movement;
};

type NamedPart = Pick<ReadPart, 'titles' | 'movements' | 'harps' | 'partIds' | 'partName'>;

/** Downloads are named after the user's file, the tune or movement, and the part. */
export const namingOf = (file: ScoreFile, part: NamedPart): Naming => {
  const piece = pieceWithin(file, part);
  const harp = part.harps.find(({ id }) => part.partIds.includes(id));
  const name = harp === undefined || part.harps.length === 1 ? part.partName : nameOfHarp(part.harps, harp);
  return {
    ofPart: (what) => (ending) => nameAfterFile(file.name, [piece, name], what ?? null, ending),
    ofPiece: (what) => (ending) => nameAfterFile(file.name, [piece], what, ending),
  };
};

const Names = createContext<Naming | null>(null);

/** Around everything of an open piece that can be downloaded. */
export const NamingProvider = Names.Provider;

export const useNaming = (): Naming => useContext(Names)!;
