import { type Annotator, createAnnotator } from '../../render/annotate.ts';

let started: Promise<Annotator> | null = null;

const work = async <T>(request: (annotator: Annotator) => Promise<T>): Promise<T> => {
  started ??= createAnnotator();
  try {
    return await request(await started);
  } catch (error) {
    started = null;
    throw error;
  }
};

/**
 * One annotator for all claims in this process: a layout engine takes long to start, and draws four times as fast once it is
 * warm. After an error it is in no known state, and the next claim gets another.
 */
export const annotator: Annotator = {
  engrave: (...request) => work(({ engrave }) => engrave(...request)),
  async *engravePageByPage(...request) {
    return yield* await work(async ({ engravePageByPage }) => engravePageByPage(...request));
  },
  engravePiece: (...request) => work(({ engravePiece }) => engravePiece(...request)),
  engraveMovements: (...request) => work(({ engraveMovements }) => engraveMovements(...request)),
  engraveTogether: (...request) => work(({ engraveTogether }) => engraveTogether(...request)),
};
