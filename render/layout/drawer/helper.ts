import { drawingKey } from './drawing-memory.ts';
import type { DrawingTask, Drawn } from './drawing-task.ts';
import type { Engraver } from './verovio.ts';

/** Another thread, which draws what this one has not come to yet. */
export interface Helper {
  /**
   * @param tasks in the order in which they will be wanted
   * @returns for each how to have what the other thread drew; undefined where it has not begun, which it then leaves to us
   */
  readonly offer: (tasks: readonly DrawingTask[]) => readonly (() => Drawn | undefined)[];
}

/** An engraver that shares what is expected of it: the same drawings come of it, whoever draws them. */
export const helpedEngraver = (engraver: Engraver, helper: Helper): Engraver => {
  const offered = new Map<string, () => Drawn | undefined>();
  const draw = (task: DrawingTask): Drawn => {
    const key = keyOf(task);
    const fetch = offered.get(key);
    offered.delete(key);
    const theirs = fetch?.();
    return theirs === undefined ? drawTask(engraver, task) : theirs;
  };
  return {
    ...engraver,
    isHelped: true,
    expect: (tasks) => {
      const all = new Map(tasks.map((task) => [keyOf(task), task]));
      const fresh = [...all].filter(([key]) => !offered.has(key));
      const fetches = helper.offer(fresh.map(([, task]) => task));
      fresh.forEach(([key], i) => {
        offered.set(key, fetches[i]!);
      });
    },
    layOutUnbroken: (mei, layout) => draw({ kind: 'unbroken', mei, layout })?.[0] ?? null,
    drawPages: (mei, layout, pages, apartVu = 0) =>
      pages === undefined
        ? engraver.drawPages(mei, layout, pages, apartVu)
        : draw({ kind: 'pages', mei, layout, pages, apartVu }),
  };
};

const keyOf = (task: DrawingTask): string =>
  task.kind === 'pages'
    ? drawingKey(task.mei, JSON.stringify([task.layout, task.pages, task.apartVu]))
    : drawingKey(task.mei, JSON.stringify(task.layout));

export const drawTask = (engraver: Engraver, task: DrawingTask): Drawn => {
  if (task.kind === 'pages') return engraver.drawPages(task.mei, task.layout, task.pages, task.apartVu);
  const line = engraver.layOutUnbroken(task.mei, task.layout);
  return line === null ? null : [line];
};
