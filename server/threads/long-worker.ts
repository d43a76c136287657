import { work as compute } from './compute-worker.ts';
import { giveWay } from './give-way.ts';

giveWay();

/** The job of threads for what takes long; they have no layout engine either. */
export const work = compute;
