import { STRINGS } from '../../strings/strings.ts';
import { areAllDrawn, type DrawnPages } from '../score/drawn/drawn-pages.ts';
import type { ScreenLayout } from '../score/screen-layout.ts';
import { fetchFile, fetchPages, type Order } from '../service/annotate-request.ts';
import { cardFiles } from './card-files.ts';
import type { TakenFile } from './file-buttons.tsx';
import type { NameDownload, Naming } from './naming.ts';
import {
  ANY_SOURCE,
  PDF,
  saveAnswer,
  saveFetchedPages,
  savePages,
  saveTable,
  withLetters,
} from './taken-files.ts';

const words = STRINGS.take;
const { names } = words;

/** A part for either harp that can be taken away. */
export interface PartToTake {
  readonly order: Order;
  readonly drawn: DrawnPages<unknown>;
  readonly layout: Pick<ScreenLayout, 'isLarge'>;
  readonly naming: Naming;
  /** Its moves or changes. */
  readonly table: { readonly what: string; readonly tabulate: () => string };
}

/** What can be made of a part for either harp, beside what teacher and pupil need. */
export const partFiles = ({ order, drawn, layout, naming, table }: PartToTake): readonly TakenFile[] => {
  const fetched = (accept: string, name: NameDownload) => async (signal: AbortSignal) =>
    saveAnswer(await fetchFile(order, accept, signal), name);
  const savePagesOf = async (signal: AbortSignal): Promise<string | null> => {
    if (layout.isLarge) return saveFetchedPages(await fetchPages(order, signal), naming.ofPart(names.pages));
    if (drawn.kind === 'drawn')
      await savePages(withLetters(drawn.pages, drawn.letters), naming.ofPart(names.pages));
    return null;
  };
  const saveMoves = async (): Promise<null> => {
    saveTable(table.tabulate(), naming.ofPart(names.moves));
    return null;
  };
  return [
    { what: words.pdf, ready: true, save: fetched(PDF, naming.ofPart()) },
    ...cardFiles(
      (accept, signal) => fetchFile({ ...order, edition: 'card' }, accept, signal),
      naming.ofPart(names.card),
    ),
    // Pages of an earlier plan are not given away as those of this one.
    { what: words.svg, ready: areAllDrawn(drawn), save: savePagesOf },
    { what: table.what, ready: true, save: saveMoves },
    { what: words.source, ready: true, save: fetched(ANY_SOURCE, naming.ofPart(names.source)) },
  ];
};

/** What teacher and pupil need beside the part. */
export const studyFiles = ({ order, naming }: Pick<PartToTake, 'order' | 'naming'>): readonly TakenFile[] =>
  (['study', 'exercise'] as const).map((edition) => ({
    what: words[edition],
    ready: true,
    save: async (signal) =>
      saveAnswer(await fetchFile({ ...order, edition }, PDF, signal), naming.ofPart(names[edition])),
  }));
