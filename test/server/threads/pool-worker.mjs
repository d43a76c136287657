// A worker for tests of the pool, in JavaScript since threads of Node 20 cannot run TypeScript.
// What it does is told by the part's name; its answer holds the score's text and the thread's number.
import { threadId } from 'node:worker_threads';

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

const answer = (value, seconds = {}) => ({
  outcome: { ok: true, value: { headers: {}, body: new TextEncoder().encode(JSON.stringify(value)) } },
  seconds,
});

const refusal = (problem) => ({ outcome: { ok: false, problem }, seconds: {} });

export const work = async ({ job: { bytes, part }, port }) => {
  switch (part) {
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
      return refusal({ code: 'no-parts' });
    case 'refuse':
      return refusal({ code: 'no-notes', part: 'P1' });
    case 'stages':
      port.postMessage({ stage: 'read', bars: null });
      port.postMessage({ stage: 'plan', bars: 7 });
      return answer({}, { read: 1, plan: 2 });
    case 'pages':
      for (let number = 1; number <= 40; number += 1)
        port.postMessage({ number, of: 40, svg: '<svg/>'.repeat(9000) });
      port.close();
      return answer({});
    default:
      await pause(Number(part ?? 0));
      return answer({ text: new TextDecoder().decode(bytes), threadId });
  }
};
