import type { EngineReport } from './engine-messages.ts';

/** The engine in a thread of its own, so that the page answers while it computes. */
export interface EngineClient {
  /** Reads and plans; reports of an earlier score that is still being worked on are passed over. */
  readonly open: (bytes: Uint8Array, part: string | null, onReport: (report: EngineReport) => void) => void;
}

export const startEngine = (onCrash: () => void): EngineClient => {
  const worker = new Worker(new URL('engine-worker.js', document.baseURI), { type: 'module' });
  let request = 0;
  let listen: (report: EngineReport) => void = () => {};
  worker.addEventListener('message', ({ data }: MessageEvent<EngineReport>) => {
    if (data.request === request) listen(data);
  });
  worker.addEventListener('error', onCrash);
  return {
    open: (bytes, part, onReport) => {
      request += 1;
      listen = onReport;
      worker.postMessage({ kind: 'open', request, bytes, part });
    },
  };
};
