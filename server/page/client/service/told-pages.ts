import { STRINGS } from '../../strings/strings.ts';
import { type Answer, annotate, explainProblem, type Order } from './annotate-request.ts';

/** A page as it was told. */
export interface ToldPage {
  /** From 1. */
  readonly number: number;
  /** How many there will be, as far as that is known. */
  readonly of: number;
  readonly svg: string;
}

/** What is told after the last page. */
export interface PagesEnd {
  readonly pageCount: number;
  /** The element that brings the pages their letters. */
  readonly letters: string;
}

interface PageEvent {
  readonly name: string;
  readonly data: unknown;
}

const isPage = (data: unknown): data is ToldPage =>
  typeof data === 'object' &&
  data !== null &&
  'number' in data &&
  'of' in data &&
  'svg' in data &&
  typeof data.svg === 'string';

const readEvent = (text: string): PageEvent | null => {
  const found = /^event: (\w+)\ndata: (.*)$/s.exec(text);
  return found === null ? null : { name: found[1]!, data: JSON.parse(found[2]!) as unknown };
};

/** The events of an answer as they come. */
async function* readEvents(answer: Response): AsyncGenerator<PageEvent> {
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
  let pieces: string[] = [];
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    pieces.push(value);
    // No event ends without a line end; a page comes in many pieces.
    if (!value.includes('\n')) continue;
    const events = pieces.join('').split('\n\n');
    pieces = [events.pop()!];
    for (const text of events) {
      const event = readEvent(text);
      if (event !== null) yield event;
    }
  }
}

/**
 * Has the service tell the pages as they are ready; one that comes to look otherwise is told again.
 *
 * @param bar an index: the page that holds it comes first
 * @returns what is told after the last, or why there are no more
 */
export const followPages = async (
  order: Order,
  signal: AbortSignal,
  onPage: (page: ToldPage) => void,
  bar: number | null,
): Promise<Answer<PagesEnd>> => {
  const answer = await annotate(order, 'text/event-stream', signal, bar === null ? {} : { pageOfBar: bar });
  if (!answer.ok) return answer;
  const failed = (sentence: string): Answer<PagesEnd> => ({ ok: false, sentence, status: 0 });
  try {
    for await (const { name, data } of readEvents(answer.value)) {
      if (name === 'page' && isPage(data)) onPage(data);
      else if (name === 'problem') return failed(explainProblem(data));
      else if (name === 'end') return { ok: true, value: readEnd(data) };
    }
  } catch (error) {
    if (signal.aborted) throw error;
  }
  return failed(STRINGS.score.offline);
};

const readEnd = (data: unknown): PagesEnd => {
  const { report, letters } = data as { report: { pageCount: number }; letters: string };
  return { pageCount: report.pageCount, letters };
};
