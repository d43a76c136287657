import { type Annotator, createAnnotator } from '../../render/annotate.ts';

let started: Promise<Annotator> | null = null;

/**
 * One annotator for all claims in this process: a layout engine takes long to start, and draws four times as fast once it is
 * warm. After an error it is in no known state, and the next claim gets another.
 */
export const annotator: Annotator = {
  engrave: async (...request) => {
    started ??= createAnnotator();
    try {
      return await (await started).engrave(...request);
    } catch (error) {
      started = null;
      throw error;
    }
  },
};
