import { createRequire } from 'node:module';
import type { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { readFontFile, TEXT_FACES } from '../text/fonts.ts';
import { LANGUAGES, type Language } from '../words/language.ts';
import { claimAccessible } from './accessible-pdf.ts';
import type { Bookmark } from './bookmarks.ts';
import type { DocumentDate } from './document-date.ts';
import { describePage } from './page-description.ts';

export interface PaperSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** What a PDF says about itself; the texts may hold anything. */
export interface PdfMeta {
  readonly title: string;
  readonly author: string;
  readonly subject?: string;
  readonly date: DocumentDate;
  /** The language of the text, and of what is said of its pages; English without it. */
  readonly language?: Language;
}

/** The files of a compilation exist in memory only; no folder of this name is read. */
const FOLDER = '/tringle-pages';

/**
 * Sets finished pages as a PDF of vector outlines and selectable text, Tinos embedded.
 *
 * The same pages give the same bytes: the date is given, not asked of the clock. A character that Tinos lacks is taken
 * from whatever font the machine has, so look at `FinishedPage.missing` first. About 25 ms a page.
 *
 * It is a document for archives and screen readers, tagged and with every letter told (PDF/A-2a, which holds PDF/A-2u);
 * where the score has a letter that no font draws, or one of private use, which the standard forbids, an ordinary PDF. It names PDF/UA-1 as
 * well, whose rules Typst finds kept (`pdf.test.ts`), but for headings that skip a level.
 *
 * @param pages SVG documents from `finishPage`, each filling one page of `paper`
 * @returns the bytes of the file; pages that Typst cannot set are a bug and throw
 */
export const renderPdf = (
  pages: readonly string[],
  paper: PaperSize,
  meta: PdfMeta,
  bookmarks: readonly Bookmark[] = [],
): Uint8Array => {
  const isForReaders = meta.title !== '' && areNested(bookmarks);
  return withDocument({ pages, paper, meta, bookmarks }, (compiler, source) => {
    const { pdf, isStandard } = setPages(compiler, source);
    return isStandard && isForReaders ? claimAccessible(pdf) : new Uint8Array(pdf);
  });
};

/** What Typst finds in pages against PDF/UA-1; empty where it finds nothing. Arguments are those of `renderPdf`. */
export const checkForReaders = (
  pages: readonly string[],
  paper: PaperSize,
  meta: PdfMeta,
  bookmarks: readonly Bookmark[] = [],
): string =>
  withDocument({ pages, paper, meta, bookmarks }, (compiler, source) => {
    try {
      compiler.pdf(source, { pdfStandard: UA_1 });
      return '';
    } catch (thrown) {
      return readDiagnostic(thrown);
    }
  });

/** Typst knows it; the types of its package do not. */
const UA_1 = 'ua-1' as 'a-2a';

interface PdfRequest {
  readonly pages: readonly string[];
  readonly paper: PaperSize;
  readonly meta: PdfMeta;
  readonly bookmarks: readonly Bookmark[];
}

type Source = { readonly mainFileContent: string; readonly resetRead: true };

/** Puts the files of a document before the compiler, and takes them away again. */
const withDocument = <T>(
  { bookmarks, meta, pages, paper }: PdfRequest,
  use: (compiler: NodeCompiler, source: Source) => T,
): T => {
  if (pages.length === 0) throw new Error('a PDF needs at least one page');
  const compiler = obtainCompiler();
  const files = new Map(pages.map((page, index) => [pageFile(index), page]));
  files.set('meta.json', JSON.stringify(completeMeta(meta)));
  const descriptions = pages.map((page, index) =>
    cleanText(describePage(page, meta.title, index + 1, meta.language)),
  );
  files.set('descriptions.json', JSON.stringify(descriptions));
  const marks = bookmarks.map((each) => ({ ...each, text: cleanText(each.text) }));
  files.set('bookmarks.json', JSON.stringify(marks));
  try {
    for (const [name, content] of files) compiler.mapShadow(`${FOLDER}/${name}`, Buffer.from(content));
    return use(compiler, {
      mainFileContent: writeDocument(pages.length, paper, meta.date),
      resetRead: true,
    });
  } finally {
    compiler.resetShadow();
    compiler.evictCache(KEPT_RUNS);
  }
};

/** A heading is at most one level below the one before it (ISO 14289-1, 7.4.2). */
const areNested = (bookmarks: readonly Bookmark[]): boolean =>
  bookmarks.every(({ level }, i) => level <= (bookmarks[i - 1]?.level ?? 0) + 1);

/** How many compilations a memoised result outlives: none, so that one user's pages are not kept for the next. */
const KEPT_RUNS = 0;

let shared: NodeCompiler | undefined;

const load = createRequire(import.meta.url);

/** Loaded when it is wanted: 51 MB that SVG pages do without. */
const obtainCompiler = (): NodeCompiler => {
  if (shared !== undefined) return shared;
  const typst = load(
    '@myriaddreamin/typst-ts-node-compiler',
  ) as typeof import('@myriaddreamin/typst-ts-node-compiler');
  shared = typst.NodeCompiler.create({
    workspace: FOLDER,
    fontArgs: [{ fontBlobs: [...TEXT_FACES, 'music' as const].map(readFontFile) }],
  });
  return shared;
};

const pageFile = (index: number): string => `page-${index + 1}.svg`;

const completeMeta = ({ author, language, subject, title }: PdfMeta): Record<string, string | null> => ({
  title: cleanText(title),
  author: cleanText(author),
  subject: subject === undefined ? null : cleanText(subject),
  language: LANGUAGES[language ?? 'english'].tag,
});

/** Characters that XML cannot hold, which the PDF's metadata is written in, and halves of characters. */
const cleanText = (text: string): string =>
  text.replace(/[\p{Cs}\p{Cc}\uFFFE\uFFFF]/gu, (each) => (/[\t\n\r]/.test(each) ? each : '\uFFFD'));

/** The Typst source: texts come from a JSON file, so nothing in them can be taken for markup. */
const writeDocument = (
  pageCount: number,
  { heightMm, widthMm }: PaperSize,
  { year, month, day }: DocumentDate,
): string => {
  const pages = Array.from({ length: pageCount }, (_, index) => `"${pageFile(index)}"`).join(', ');
  return `
#let meta = json("meta.json")
#set document(title: meta.title, author: meta.author, description: meta.subject, date: datetime(year: ${year}, month: ${month}, day: ${day}))
#set text(lang: meta.language)
#set page(width: ${widthMm}mm, height: ${heightMm}mm, margin: 0pt)
#let bookmarks = json("bookmarks.json")
#let descriptions = json("descriptions.json")
#show heading: none
#for (index, file) in (${pages},).enumerate() {
  if index > 0 { pagebreak() }
  for mark in bookmarks.filter(each => each.page == index) {
    place(top + left, dy: mark.topMm * 1mm, heading(level: mark.level, outlined: false, bookmarked: true, mark.text))
  }
  image(file, width: 100%, height: 100%, alt: descriptions.at(index))
}
`;
};

/**
 * Compiles and exports in one call: a compiled document handed to JavaScript keeps its memory (3 MB a page) until
 * garbage is collected, which native memory does not prompt.
 */
const setPages = (
  compiler: NodeCompiler,
  source: Source,
): { readonly pdf: Buffer; readonly isStandard: boolean } => {
  try {
    return { pdf: compiler.pdf(source, { pdfStandard: 'a-2a' }), isStandard: true };
  } catch (thrown) {
    if (breaksStandard(thrown)) return { pdf: compiler.pdf(source), isStandard: false };
    throw new Error(`Typst refused the pages: ${readDiagnostic(thrown)}`, { cause: thrown });
  }
};

/** Typst names the standard where a document cannot keep to it, as where no font draws a letter or it has no meaning. */
const breaksStandard = (thrown: unknown): boolean => readDiagnostic(thrown).includes('PDF/A-2a error');

/** The compiler leaves the message empty and puts its diagnostic, numbered, where a code belongs. */
const readDiagnostic = (thrown: unknown): string => {
  if (!(thrown instanceof Error)) return String(thrown);
  return 'code' in thrown && typeof thrown.code === 'string' ? thrown.code : thrown.message;
};
