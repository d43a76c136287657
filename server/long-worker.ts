import { work as think } from './think-worker.ts';
import { giveWay } from './work/give-way.ts';

giveWay();

/** The job of threads for what takes long; they have no layout engine either. */
export const work = think;
