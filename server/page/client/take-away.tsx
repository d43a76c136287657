import { useState } from 'preact/hooks';
import { STRINGS } from '../strings.ts';
import { fetchFile, type Order } from './annotate-request.ts';
import type { DrawnPages } from './drawn-pages.ts';
import { tabulateMoves } from './moves-table.ts';
import type { PlannedPart } from './planned-part.ts';
import { PrintMoves } from './print-moves.tsx';
import { fileNameOf, saveFile } from './save-file.ts';

const words = STRINGS.take;

/** Media types of score files, and how their names end. */
const SOURCE_ENDINGS: Readonly<Record<string, string>> = {
  'application/vnd.recordare.musicxml+xml': 'musicxml',
  'application/vnd.recordare.musicxml': 'mxl',
  'application/mei+xml': 'mei',
};

const zipPages = async (pages: readonly string[]): Promise<Blob> => {
  const { strToU8, zipSync } = await import('fflate');
  const files = Object.fromEntries(pages.map((svg, i) => [words.svgName(i + 1), strToU8(svg)]));
  return new Blob([zipSync(files) as Uint8Array<ArrayBuffer>], { type: 'application/zip' });
};

/** @returns what went wrong, as a sentence; null where nothing did */
type Save = () => Promise<string | null>;

interface TakeAwayProps {
  readonly order: Order;
  readonly part: PlannedPart;
  readonly drawn: DrawnPages;
}

const savers = ({ order, part, drawn }: TakeAwayProps) => {
  const named = (ending: string): string => fileNameOf(part.titles.title || part.partName, ending);
  const fetchAndSave = async (
    accept: string,
    endings: Readonly<Record<string, string>>,
  ): Promise<string | null> => {
    const fetched = await fetchFile(order, accept);
    if (!fetched.ok) return fetched.sentence;
    const { blob, mediaType } = fetched.value;
    saveFile(blob, named(endings[mediaType] ?? 'bin'));
    return null;
  };
  const pdf: Save = () => fetchAndSave('application/pdf', { 'application/pdf': 'pdf' });
  const source: Save = () => fetchAndSave(Object.keys(SOURCE_ENDINGS).join(', '), SOURCE_ENDINGS);
  const svg: Save = async () => {
    if (drawn.kind === 'drawn') saveFile(await zipPages(drawn.pages), named('zip'));
    return null;
  };
  const csv: Save = async () => {
    // The mark at the start tells spreadsheets that the text is UTF-8.
    saveFile(new Blob(['\uFEFF', tabulateMoves(part)], { type: 'text/csv;charset=utf-8' }), named('csv'));
    return null;
  };
  return [
    ['pdf', pdf],
    ['svg', svg],
    ['csv', csv],
    ['source', source],
  ] as const;
};

/** Pages of an earlier plan are not given away as those of this one. */
const areFresh = (drawn: DrawnPages): boolean => drawn.kind === 'drawn' && drawn.stale === false;

/** Files to take away. */
export const TakeAway = (props: TakeAwayProps) => {
  const [told, setTold] = useState('');
  const run = async (what: string, save: Save): Promise<void> => {
    setTold(words.preparing(what));
    const wrong = await save();
    setTold(wrong === null ? words.done(what) : words.failed(what, wrong));
  };
  return (
    <section class="take">
      <h2>{words.heading}</h2>
      <div class="buttons">
        {savers(props).map(([name, save]) => (
          <button
            key={name}
            type="button"
            disabled={name === 'svg' && !areFresh(props.drawn)}
            onClick={() => void run(words[name], save)}
          >
            {words[name]}
          </button>
        ))}
        <PrintMoves part={props.part} fileName={props.order.file.name} />
      </div>
      <p role="status">{told}</p>
    </section>
  );
};
