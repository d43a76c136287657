import { createRequire } from 'node:module';
import type { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { readFontFile, TEXT_FACES } from '../text/fonts.ts';
import type { Bookmark } from './bookmarks.ts';
import type { DocumentDate } from './document-date.ts';

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
  /** The language of the text, an ISO 639 code of two or three letters; English without it. */
  readonly language?: string;
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
 * where the score has a letter that no font draws, or one of private use, which the standard forbids, an ordinary PDF. Typst writes one standard a
 * file, so it does not call itself PDF/UA as well.
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
  if (pages.length === 0) throw new Error('a PDF needs at least one page');
  const compiler = obtainCompiler();
  const files = new Map(pages.map((page, index) => [pageFile(index), page]));
  files.set('meta.json', JSON.stringify(completeMeta(meta)));
  files.set(
    'bookmarks.json',
    JSON.stringify(bookmarks.map((each) => ({ ...each, text: cleanText(each.text) }))),
  );
  try {
    for (const [name, content] of files) compiler.mapShadow(`${FOLDER}/${name}`, Buffer.from(content));
    return new Uint8Array(setPages(compiler, writeDocument(pages.length, paper, meta.date)));
  } finally {
    compiler.resetShadow();
    compiler.evictCache(KEPT_RUNS);
  }
};

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

const completeMeta = ({ author, language, subject, title }: PdfMeta): Record<string, string | null> => {
  if (language !== undefined && !/^[a-z]{2,3}$/i.test(language))
    throw new Error(`“${language}” is no ISO 639 code`);
  return {
    title: cleanText(title),
    author: cleanText(author),
    subject: subject === undefined ? null : cleanText(subject),
    language: language ?? 'en',
  };
};

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
#show heading: none
#for (index, file) in (${pages},).enumerate() {
  if index > 0 { pagebreak() }
  for mark in bookmarks.filter(each => each.page == index) {
    place(top + left, dy: mark.topMm * 1mm, heading(level: mark.level, outlined: false, bookmarked: true, mark.text))
  }
  image(file, width: 100%, height: 100%, alt: meta.title + ", " + str(index + 1))
}
`;
};

/**
 * Compiles and exports in one call: a compiled document handed to JavaScript keeps its memory (3 MB a page) until
 * garbage is collected, which native memory does not prompt.
 */
const setPages = (compiler: NodeCompiler, mainFileContent: string): Buffer => {
  const source = { mainFileContent, resetRead: true };
  try {
    return compiler.pdf(source, { pdfStandard: 'a-2a' });
  } catch (thrown) {
    if (breaksStandard(thrown)) return compiler.pdf(source);
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
