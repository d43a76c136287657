import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { HARPS, type TuneSummary } from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { isPhone } from '../controls/narrow.ts';
import { scrollTo } from '../controls/scrolling.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { type BookState, type BookTable, findTunes, linesOfBook, markTune, useBook } from './book-memory.ts';
import { keyOfBook } from './book-steps.tsx';
import { SetSection } from './set-section.tsx';
import { TableRequest } from './table-request.tsx';
import { TableFilters, TuneTable } from './tune-table.tsx';

const words = STRINGS.tunes;

/** The tune that was opened last takes the focus, or the heading. */
const useLastTune = ({ last }: BookState) => {
  const section = useRef<HTMLElement>(null);
  useEffect(() => {
    const buttons = [...section.current!.querySelectorAll<HTMLElement>('button[data-tune]')];
    const button = buttons.find(({ dataset }) => dataset.tune === last);
    button?.scrollIntoView({ block: 'center' });
    (button ?? section.current!.querySelector('h2'))?.focus({ preventScroll: true });
  }, []);
  return section;
};

/** A table that was asked for is brought into view, where it stands below what it is asked for with. */
const useShownTable = (section: { readonly current: HTMLElement | null }, { table }: BookState): void => {
  const before = useRef(table);
  useEffect(() => {
    const isNew = table !== null && table !== before.current;
    before.current = table;
    if (!isNew) return;
    const top = section.current!.querySelector('.filters');
    if (top !== null && top.getBoundingClientRect().top > innerHeight / 2) scrollTo(top, 'start');
  }, [table]);
};

const TuneList = ({
  tunes,
  onChoose,
}: {
  readonly tunes: readonly TuneSummary[];
  readonly onChoose: (tune: string) => void;
}) => (
  <ul>
    {tunes.map(({ number, title }) => (
      <li key={number}>
        <button type="button" data-tune={number} onClick={() => onChoose(number)}>
          {words.option(number, title)}
        </button>
      </li>
    ))}
  </ul>
);

/** The set stands below all the cards: how many tunes it has is told beside each of them, and leads there. */
const ToTheSet = ({
  section,
  count,
}: {
  readonly section: { readonly current: HTMLElement | null };
  readonly count: number;
}) =>
  count === 0 ? null : (
    <p class="to-the-set">
      <button
        type="button"
        onClick={() => {
          const heading = section.current!.querySelector<HTMLElement>('.set h3')!;
          scrollTo(heading, 'start');
          heading.focus({ preventScroll: true });
        }}
      >
        {LEVER_STRINGS.book.set.goTo(count)}
      </button>
    </p>
  );

/** Finds tunes by what they are called. */
const FindField = ({
  find,
  shown,
  all,
  onFind,
}: {
  readonly find: string;
  /** How many tunes are found, and how many there are. */
  readonly shown: number;
  readonly all: number;
  readonly onFind: (find: string) => void;
}) => (
  <p class="find">
    <label>
      <span>{words.find}</span>{' '}
      <input type="search" value={find} onInput={({ currentTarget }) => onFind(currentTarget.value)} />
    </label>{' '}
    <span role="status">{shown === all ? '' : words.shown(shown, all)}</span>
  </p>
);

export interface BookViewProps {
  readonly file: ScoreFile;
  readonly tunes: readonly TuneSummary[];
  readonly onOpen: (file: ScoreFile) => void;
}

type ChosenTune = Pick<ScoreFile, 'tune' | 'instrument' | 'tuning'>;

/** What each tune asks of a lever harp, and the set. */
const AskedTable = ({
  file,
  table,
  state,
  change,
  section,
  onChoose,
}: Pick<BookViewProps, 'file'> & {
  readonly table: BookTable;
  readonly state: BookState;
  readonly change: (changed: Partial<BookState>) => void;
  readonly section: { readonly current: HTMLElement | null };
  readonly onChoose: (chosen: ChosenTune) => void;
}) => {
  // Where tunes are cards, who has marked the last of them comes to the set next.
  const [isNarrow] = useState(isPhone);
  const { set, filter, sort } = state;
  const ofSet = (
    <SetSection
      {...{ file, table, set }}
      onSet={(changed) => change({ set: changed })}
      onChoose={(tune, tuning) => onChoose({ tune, instrument: table.harp, tuning })}
    />
  );
  return (
    <>
      {!isNarrow && ofSet}
      <TableFilters filter={filter} onFilter={(wanted) => change({ filter: wanted })} />
      <TuneTable
        lines={linesOfBook(table, state)}
        betterKeys={table.betterKeys}
        sort={sort}
        chosen={set.chosen}
        onMark={(tune, isIn) => change({ set: markTune(table, set, tune, isIn) })}
        onSort={(wanted) => change({ sort: wanted })}
        onChoose={(tune) => onChoose({ tune, instrument: table.harp })}
      />
      {isNarrow && <ToTheSet section={section} count={set.chosen.length} />}
      {isNarrow && ofSet}
    </>
  );
};

/** The tunes of a book: as a list to choose from, or as a table of what each asks of a lever harp. */
export const BookView = ({ file, tunes, onOpen }: BookViewProps) => {
  const key = useMemo(() => keyOfBook(file), [file.bytes]);
  const [state, change] = useBook(key);
  const section = useLastTune(state);
  useShownTable(section, state);
  const { table, find } = state;
  const choose = (chosen: ChosenTune): void => {
    change({ last: chosen.tune ?? null });
    onOpen({ ...file, ...chosen });
  };
  const { instrument: last } = file;
  // Who took a tune to the pedal harp stays there until the table tells of levers.
  const listHarp = last !== undefined && HARPS[last].kind === 'pedal' ? last : state.harp;
  const shown = table === null ? findTunes(tunes, state) : linesOfBook(table, state);
  return (
    <section ref={section} class="parts book">
      <h2 tabIndex={-1}>{words.heading}</h2>
      <p>{words.intro(file.name, tunes.length)}</p>
      <FindField
        find={find}
        shown={shown.length}
        all={tunes.length}
        onFind={(wanted) => change({ find: wanted })}
      />
      <TableRequest
        file={file}
        state={state}
        onHarp={(harp) => change({ harp })}
        onTable={(asked) => change({ table: asked, set: { ...state.set, found: null } })}
      />
      {table === null ? (
        <TuneList tunes={shown} onChoose={(tune) => choose({ tune, instrument: listHarp })} />
      ) : (
        <AskedTable {...{ file, table, state, change, section }} onChoose={choose} />
      )}
    </section>
  );
};
