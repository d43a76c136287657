import { namePiece, type Score } from '../../engine/index.ts';

/** What a printed part is called: its piece, or the part where that has no title. */
export const titleOf = ({ harp, titles }: Pick<Score, 'harp' | 'titles'>): string =>
  namePiece(titles) || harp.name;
