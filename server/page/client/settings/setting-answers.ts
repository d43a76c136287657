import { useEffect, useRef, useState } from 'preact/hooks';
import type { Setting } from '../../../../engine/index.ts';
import type { ReachedSetting, SettingAnswer, SettingQuestion, SoundFound } from './setting-messages.ts';

/** The file of the thread, as the build names it. */
declare const SETTINGS_WORKER: string;

export interface SettingAnswers {
  /** What the setting holds; null until it is known. */
  readonly contents: ReachedSetting | null;
  /** The answer to the last sound that was asked for; null until there is one. */
  readonly sound: SoundFound | null;
  readonly failed: boolean;
}

/**
 * What the view's own thread answers, the latest of each kind.
 *
 * @param text the sound that is asked for; empty for none
 */
export const useSettingAnswers = (
  setting: Setting,
  text: string,
  origin: Setting,
  footRestSeconds: number,
): SettingAnswers => {
  const [answers, setAnswers] = useState<SettingAnswers>({ contents: null, sound: null, failed: false });
  const thread = useRef<Worker | null>(null);
  const ask = (question: SettingQuestion): void => thread.current?.postMessage(question);
  useEffect(() => {
    const worker = new Worker(new URL(SETTINGS_WORKER, document.baseURI), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<SettingAnswer>) =>
      setAnswers((before) =>
        data.kind === 'contents' ? { ...before, contents: data.contents } : { ...before, sound: data.sound },
      ),
    );
    worker.addEventListener('error', () => setAnswers((before) => ({ ...before, failed: true })));
    thread.current = worker;
    return () => worker.terminate();
  }, []);
  // A thread answers in the order of the questions: the last answer is to the last of them.
  useEffect(() => ask({ kind: 'contents', setting, origin, footRestSeconds }), [setting, origin]);
  useEffect(() => {
    if (text !== '') ask({ kind: 'search', text, origin, footRestSeconds });
  }, [text, origin, footRestSeconds]);
  return answers;
};
