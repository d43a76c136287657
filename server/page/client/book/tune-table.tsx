import {
  capitalize,
  cellsOfTune,
  MOST_TUNES_IN_SET,
  TUNE_COLUMNS,
  type TuneSort,
} from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { BookState, BookTable } from './book-memory.ts';

const words = LEVER_STRINGS.book;

/** What the table leaves out. */
export const TableFilters = ({
  filter,
  onFilter,
}: {
  readonly filter: BookState['filter'];
  readonly onFilter: (filter: BookState['filter']) => void;
}) => {
  const box = (name: 'playable' | 'asTuned') => (
    <label>
      <input
        type="checkbox"
        checked={filter[name]}
        onChange={({ currentTarget }) => onFilter({ ...filter, [name]: currentTarget.checked })}
      />{' '}
      <span>{words.filter[name]}</span>
    </label>
  );
  return (
    <p class="filters">
      {box('playable')}
      {box('asTuned')}
      <label>
        <span>{words.filter.mostChanges}</span>{' '}
        <input
          type="number"
          min="0"
          max="9999"
          value={filter.mostChanges ?? ''}
          onInput={({ currentTarget: { value, validity } }) =>
            onFilter({ ...filter, mostChanges: value === '' || !validity.valid ? null : Number(value) })
          }
        />
      </label>
    </p>
  );
};

type Columns = typeof TUNE_COLUMNS;

const Heads = ({
  columns,
  sort,
  onSort,
}: {
  readonly columns: Columns;
  readonly sort: TuneSort;
  readonly onSort: (sort: TuneSort) => void;
}) => (
  <thead>
    <tr>
      <th scope="col">{words.set.column}</th>
      {columns.map(({ name, sort: own }) => (
        <th key={name} scope="col" {...(own === sort ? { 'aria-sort': 'ascending' as const } : {})}>
          {own === null ? (
            capitalize(name)
          ) : (
            <button type="button" class="plain" title={words.sortBy(name)} onClick={() => onSort(own)}>
              {capitalize(name)}
            </button>
          )}
        </th>
      ))}
    </tr>
  </thead>
);

interface TuneTableProps {
  readonly lines: BookTable['tunes'];
  /** Better keys were looked for. */
  readonly betterKeys: boolean;
  readonly sort: TuneSort;
  /** Numbers of the tunes of the set. */
  readonly chosen: readonly string[];
  readonly onMark: (tune: string, isIn: boolean) => void;
  readonly onSort: (sort: TuneSort) => void;
  readonly onChoose: (tune: string) => void;
}

/** What one tune asks of the player. */
const TuneLine = ({
  line,
  columns,
  chosen,
  onMark,
  onChoose,
}: Pick<TuneTableProps, 'chosen' | 'onMark' | 'onChoose'> & {
  readonly line: TuneTableProps['lines'][number];
  readonly columns: Columns;
}) => {
  const [number, title, ...others] = cellsOfTune(line);
  const name = title || STRINGS.tunes.option(line.number, '');
  const isIn = chosen.includes(line.number);
  return (
    <tr class={line.playable ? '' : 'stops'}>
      <td>
        <input
          type="checkbox"
          aria-label={words.set.mark(name)}
          checked={isIn}
          disabled={!isIn && chosen.length >= MOST_TUNES_IN_SET}
          onChange={({ currentTarget }) => onMark(line.number, currentTarget.checked)}
        />
      </td>
      <td>{number}</td>
      <th scope="row">
        <button type="button" class="plain" data-tune={line.number} onClick={() => onChoose(line.number)}>
          {name}
        </button>
      </th>
      {columns.slice(2).map(({ name: column }, i) => (
        <td key={column} data-head={capitalize(column)}>
          {others[i]}
        </td>
      ))}
    </tr>
  );
};

/** What each tune asks of the player; the column that it is sorted by is marked. */
export const TuneTable = ({ lines, betterKeys, sort, onSort, ...ofLine }: TuneTableProps) => {
  // Better keys have the last column.
  const columns = betterKeys ? TUNE_COLUMNS : TUNE_COLUMNS.slice(0, -1);
  return (
    // A keyboard scrolls it.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section class="table-pane" aria-label={words.table} tabIndex={0}>
      <table>
        <Heads columns={columns} sort={sort} onSort={onSort} />
        <tbody>
          {lines.map((line) => (
            <TuneLine key={line.number} {...{ line, columns }} {...ofLine} />
          ))}
        </tbody>
      </table>
    </section>
  );
};
