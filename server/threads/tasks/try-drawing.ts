import { fail, type Outcome } from '../../service-problem.ts';

/** Draws; a layout that fails is told as a problem, and all else that is thrown is a bug. */
export const tryDrawing = async <T>(draw: () => Promise<Outcome<T>>): Promise<Outcome<T>> => {
  try {
    return await draw();
  } catch (error) {
    // Loaded already by what drew.
    const { EngraverError } = await import('../../../render/index.ts');
    if (!(error instanceof EngraverError)) throw error;
    return fail({ code: 'layout-failed' });
  }
};
