// A worker for tests of the pool, in JavaScript since threads of Node 20 cannot run TypeScript.
// What it does is told by the part's name; the title of its answer is the score's text and the thread's number.
import { threadId } from 'node:worker_threads';

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

export const annotate = async ({ bytes, options, form }) => {
  switch (options.part) {
    case 'stuck':
      for (;;);
    case 'exit':
      process.exit(1);
      break;
    case 'throw':
      throw new Error('the renderer failed');
    case 'fill-memory': {
      const kept = [];
      for (;;) kept.push(new Array(1_000_000).fill(kept.length));
    }
    case 'fail-later':
      setTimeout(() => {
        throw new Error('the renderer failed between two scores');
      }, 50);
      return { ok: false, problem: { code: 'no-parts' } };
    case 'refuse':
      return { ok: false, problem: { code: 'no-notes', part: 'P1' } };
    default:
      await pause(Number(options.part ?? 0));
      return { ok: true, value: { text: new TextDecoder().decode(bytes), form, threadId } };
  }
};
