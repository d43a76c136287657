import { useEffect, useState } from 'preact/hooks';
import type { HarpName } from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import { nameOfFile } from '../downloads/naming.ts';
import { saveFile } from '../downloads/save-file.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { BookState, BookTable } from './book-memory.ts';
import { fetchTable, fetchTableFile, type TableWish } from './book-request.ts';
import { LEVER_HARPS } from './lever-harps.ts';

const words = LEVER_STRINGS.book;

const FILES = [
  { what: words.csv, type: 'text/csv', ending: 'csv' },
  { what: words.pdf, type: 'application/pdf', ending: 'pdf' },
] as const;

/** The table as it was asked for last; a question whose asker is gone is given up. */
const useAskedTable = (file: ScoreFile, onTable: (table: BookTable) => void) => {
  const [asking, ask] = useState<TableWish | null>(null);
  const [told, tell] = useState('');
  useEffect(() => {
    if (asking === null) return;
    const leaving = new AbortController();
    tell(words.asking);
    void fetchTable(file, asking, leaving.signal).then(
      (answer) => {
        ask(null);
        tell(answer.ok ? '' : answer.sentence);
        if (answer.ok) onTable({ ...answer.value, ...asking });
      },
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [asking]);
  return { isAsking: asking !== null, ask, told, tell };
};

const HarpField = ({
  harp,
  onHarp,
}: {
  readonly harp: HarpName;
  readonly onHarp: (harp: HarpName) => void;
}) => (
  <label class="instrument">
    <span>{words.tableHarp}</span>{' '}
    <select
      name="table-harp"
      value={harp}
      onChange={({ currentTarget }) => onHarp(currentTarget.value as HarpName)}
    >
      {LEVER_HARPS.map((name) => (
        <option key={name} value={name}>
          {LEVER_STRINGS.harp.name(name)}
        </option>
      ))}
    </select>
  </label>
);

/** Asks for the table of a book, for a lever harp that is chosen, and saves it as a file. */
export const TableRequest = ({
  file,
  state,
  onHarp,
  onTable,
}: {
  readonly file: ScoreFile;
  readonly state: BookState;
  readonly onHarp: (harp: HarpName) => void;
  readonly onTable: (table: BookTable | null) => void;
}) => {
  const { harp } = state;
  const [betterKeys, setBetterKeys] = useState(state.table?.betterKeys ?? false);
  const { isAsking, ask, told, tell } = useAskedTable(file, onTable);
  const save = async ({ what, type, ending }: (typeof FILES)[number]): Promise<void> => {
    tell(STRINGS.take.preparing(what));
    const answer = await fetchTableFile(file, { harp, betterKeys }, state, type);
    if (answer.ok) saveFile(answer.value, nameOfFile(file)(ending));
    tell(answer.ok ? STRINGS.take.done(what) : STRINGS.take.failed(what, answer.sentence));
  };
  return (
    <div class="table-request">
      <HarpField harp={harp} onHarp={onHarp} />
      <label>
        <input
          type="checkbox"
          checked={betterKeys}
          onChange={({ currentTarget }) => setBetterKeys(currentTarget.checked)}
        />{' '}
        <span>{words.betterKeys}</span>
      </label>
      <StepButton atEnd={isAsking} onClick={() => ask({ harp, betterKeys })}>
        {state.table === null ? words.ask : words.askAgain}
      </StepButton>
      {state.table !== null && (
        <>
          {FILES.map((each) => (
            <button key={each.ending} type="button" onClick={() => void save(each)}>
              {each.what}
            </button>
          ))}
          <button type="button" onClick={() => onTable(null)}>
            {words.list}
          </button>
        </>
      )}
      <p role="status">{told}</p>
      {(state.table?.failures ?? []).map((sentence) => (
        <p key={sentence} class="stop">
          {sentence}
        </p>
      ))}
    </div>
  );
};
