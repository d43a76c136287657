import type { Annotation } from '../render/annotation.ts';
import { dispositionOf, fileNameFrom } from './file-name.ts';
import type { ReplyType } from './negotiate.ts';
import type { Query } from './query.ts';
import { reportAnnotation } from './report.ts';
import { decline, type Outcome } from './service-problem.ts';

/** A whole answer, ready to be sent: nothing of it is sent before all of it is there. */
export interface Reply {
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The address of one page of the same part, for the `Link` header. */
const pageAddress = (path: string, query: Query, page: number): string => {
  const parameters = new URLSearchParams(
    query.options.part === undefined ? {} : { part: query.options.part },
  );
  parameters.set('page', `${page}`);
  return `${path}?${parameters}`;
};

/** The other pages of the part (RFC 8288; relations of the IANA registry). */
const linkPages = (path: string, query: Query, pageCount: number): string =>
  [
    { rel: 'first', page: 1 },
    { rel: 'prev', page: query.page - 1 },
    { rel: 'next', page: query.page + 1 },
    { rel: 'last', page: pageCount },
  ]
    .filter(({ page }) => page >= 1 && page <= pageCount)
    .map(({ rel, page }) => `<${pageAddress(path, query, page)}>; rel="${rel}"`)
    .join(', ');

const replyPdf = (annotation: Annotation): Outcome<Reply> => {
  if (annotation.pdf === null) throw new Error('a PDF was asked for, and the renderer made none');
  const name = fileNameFrom(annotation.titles.title, 'harp part');
  return {
    ok: true,
    value: {
      headers: {
        'Content-Type': 'application/pdf',
        'Content-Disposition': dispositionOf(`${name}.pdf`),
        'Tringle-Page-Count': `${annotation.pages.length}`,
      },
      body: annotation.pdf,
    },
  };
};

const replySvg = (annotation: Annotation, query: Query, path: string): Outcome<Reply> => {
  const pageCount = annotation.pages.length;
  const page = annotation.pages[query.page - 1];
  if (page === undefined) return decline({ code: 'page-out-of-range', page: query.page, pageCount });
  return {
    ok: true,
    value: {
      headers: {
        'Content-Type': 'image/svg+xml',
        // The styles of a drawing stand in its own elements.
        'Content-Security-Policy': "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'",
        'Tringle-Page-Count': `${pageCount}`,
        Link: linkPages(path, query, pageCount),
      },
      body: encode(page),
    },
  };
};

const replyJson = (annotation: Annotation): Outcome<Reply> => {
  const report = reportAnnotation(annotation);
  const pageCount = report.pageCount === null ? {} : { 'Tringle-Page-Count': `${report.pageCount}` };
  return {
    ok: true,
    value: {
      headers: { 'Content-Type': 'application/json', ...pageCount },
      body: encode(JSON.stringify(report)),
    },
  };
};

/**
 * Puts an annotated score into the form that was asked for.
 *
 * @param path the address the score was sent to, without its query
 * @returns the answer, or `page-out-of-range`
 */
export const composeReply = (
  annotation: Annotation,
  type: ReplyType,
  query: Query,
  path: string,
): Outcome<Reply> => {
  switch (type) {
    case 'application/pdf':
      return replyPdf(annotation);
    case 'image/svg+xml':
      return replySvg(annotation, query, path);
    case 'application/json':
      return replyJson(annotation);
  }
};
