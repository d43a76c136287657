import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { PAGE_EVENTS } from '../../server/api/answers/told-pages.ts';
import { describeApi } from '../../server/api/openapi.ts';
import { replyToldPages } from '../../server/http/reply.ts';
import type { AnnotateJob, Perform } from '../../server/threads/job.ts';
import { annotatePages } from '../../server/threads/tasks/annotate/annotate-pages.ts';
import { startStageClock } from '../../server/threads/tasks/stage-clock.ts';
import { writeLongPart } from '../bench/long-part.ts';
import { annotator } from '../render/shared-annotator.ts';
import { fakeService } from './fake-service.ts';

interface Told {
  readonly name: string;
  readonly data: unknown;
}

const readEvents = (text: string): Told[] =>
  text
    .split('\n\n')
    .filter((each) => each !== '')
    .map((each) => {
      const [, name, data] = /^event: (\w+)\ndata: (.*)$/.exec(each) ?? [];
      return { name: name!, data: JSON.parse(data!) };
    });

/** The real renderer, in this process. */
const annotateHere: Perform<AnnotateJob> = async (job, _signal, onProgress, onPage = () => {}) => {
  const clock = startStageClock((progress) => onProgress?.(progress));
  const made = await annotatePages(job, job.choice, annotator, clock, onPage);
  return made.ok ? { ok: true, value: replyToldPages(made.value) } : made;
};

describe('pages asked for as events', () => {
  let close = (): void => {};
  afterEach(() => close());

  const ask = async (
    annotate: Perform<AnnotateJob>,
    body: string,
    signal: AbortSignal | null = null,
    query = '',
  ): Promise<Response> => {
    const server = fakeService({ annotate }).app.listen(0, '127.0.0.1');
    close = () => {
      server.close();
      server.closeAllConnections();
    };
    await new Promise((resolve) => server.once('listening', resolve));
    return fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/v1/annotate${query}`, {
      method: 'POST',
      headers: { Accept: 'text/event-stream', 'Content-Type': 'application/xml' },
      body,
      signal,
    });
  };

  it('come one by one between the beginning of the drawing and the end, which tells how many there are', async () => {
    const answer = await ask(annotateHere, writeLongPart(30));
    expect(answer.headers.get('Content-Type')).toMatch(/^text\/event-stream/);
    const events = readEvents(await answer.text());
    for (const { name, data } of events) PAGE_EVENTS[name as keyof typeof PAGE_EVENTS].parse(data);
    expect(events[0]).toEqual({ name: 'progress', data: { stage: 'engrave', bars: 30 } });
    expect(events.at(-1)?.name).toBe('end');
    const pages = events
      .filter(({ name }) => name === 'page')
      .map(({ data }) => PAGE_EVENTS.page.parse(data));
    const { report, letters } = PAGE_EVENTS.end.parse(events.at(-1)?.data);
    expect(new Set(pages.map(({ number }) => number)).size).toBe(report.pageCount);
    expect(report.pageCount).toBeGreaterThan(1);
    expect(letters).toMatch(/^<style.*@font-face/);
  });

  it('begin with that of the bar that is named', async () => {
    const answer = await ask(annotateHere, writeLongPart(30), null, '?pageOfBar=25');
    expect(answer.status).toBe(200);
    const numbers = readEvents(await answer.text())
      .filter(({ name }) => name === 'page')
      .map(({ data }) => PAGE_EVENTS.page.parse(data).number);
    const [first, ...others] = numbers;
    expect(first).toBeGreaterThan(1);
    expect(others[0]).toBe(1);
    expect(numbers.toSorted((a, b) => a - b)).toEqual(numbers.map((_, i) => i + 1));
  });

  it('are there before the last is drawn', async () => {
    let goOn = (): void => {};
    const answer = await ask(async (_job, _signal, _onProgress, onPage) => {
      onPage?.({ number: 1, of: 2, svg: '<svg/>' });
      await new Promise<void>((resolve) => {
        goOn = resolve;
      });
      return { ok: false, problem: { code: 'layout-failed' } };
    }, writeLongPart(1));
    const reader = answer.body!.getReader();
    const first = new TextDecoder().decode((await reader.read()).value);
    expect(readEvents(first)).toEqual([{ name: 'page', data: { number: 1, of: 2, svg: '<svg/>' } }]);
    goOn();
    await reader.cancel();
  });

  it('end with the problem where the drawing fails after some of them', async () => {
    const answer = await ask(async (_job, _signal, _onProgress, onPage) => {
      onPage?.({ number: 1, of: 9, svg: '<svg/>' });
      return { ok: false, problem: { code: 'layout-failed' } };
    }, writeLongPart(1));
    expect(answer.status).toBe(200);
    const events = readEvents(await answer.text());
    expect(events.map(({ name }) => name)).toEqual(['page', 'problem']);
    expect(PAGE_EVENTS.problem.parse(events[1]?.data)).toMatchObject({ status: 422 });
  });

  it('end with a problem that names the incident where a bug stops the drawing', async () => {
    const answer = await ask(async (_job, _signal, _onProgress, onPage) => {
      onPage?.({ number: 1, of: 9, svg: '<svg/>' });
      throw new Error('a bug');
    }, writeLongPart(1));
    const { name, data } = readEvents(await answer.text()).at(-1)!;
    expect(name).toBe('problem');
    expect(PAGE_EVENTS.problem.parse(data)).toMatchObject({ status: 500, incident: expect.any(String) });
  });

  it('are refused like any other answer where the score cannot be read', async () => {
    const answer = await ask(annotateHere, '<nothing/>');
    expect(answer.status).toBe(422);
    expect(answer.headers.get('Content-Type')).toBe('application/problem+json');
  });

  it('stop being drawn when the client goes away', async () => {
    const leaving = new AbortController();
    const stopped = new Promise<void>((resolve) => {
      void ask(
        async (_job, signal, _onProgress, onPage) => {
          onPage?.({ number: 1, of: 9, svg: '<svg/>' });
          await new Promise((abort) => signal.addEventListener('abort', abort));
          resolve();
          return { ok: false, problem: { code: 'cancelled' } };
        },
        writeLongPart(1),
        leaving.signal,
      ).then(async (answer) => {
        const reader = answer.body!.getReader();
        await reader.read();
        leaving.abort();
      });
    });
    await stopped;
  });

  it('are described: the data of each event has its schema', () => {
    interface Described {
      readonly [name: string]: Described;
    }
    const api = describeApi() as unknown as Described;
    const answers = api.paths!['/v1/annotate']!.post!.responses!['200']!.content!;
    const events = answers['text/event-stream']!.schema!['x-events'] as unknown as Record<
      string,
      { $ref: string }
    >;
    expect(Object.keys(events)).toEqual(['progress', 'page', 'end', 'problem']);
    for (const { $ref } of Object.values(events)) {
      expect(api.components!.schemas![$ref.split('/').at(-1)!]!.type as unknown).toBe('object');
    }
  });
});
