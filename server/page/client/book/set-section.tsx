import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { capitalize, MOST_TUNES_IN_SET, nameBreak, nameSetTotal } from '../../../../engine/index.ts';
import { SET_MUSIC, type SetMusic } from '../../../../render/pure.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { scrollTo } from '../controls/scrolling.ts';
import { StepButton } from '../controls/step-button.tsx';
import { nameOfFile } from '../downloads/naming.ts';
import { saveFile } from '../downloads/save-file.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { BookSet, BookTable, FoundSet } from './book-memory.ts';
import { fetchSet, fetchSetSheet } from './book-request.ts';

const words = LEVER_STRINGS.book.set;

/** A tune by its title, or by its number where it has none. */
const nameTune = ({ number, title }: BookTable['tunes'][number]): string =>
  title || STRINGS.tunes.option(number, '');

/** Groups of tunes that need no lever set between them; one can be taken as the set. */
const Together = ({
  table: { tunes, together },
  onTake,
}: {
  readonly table: BookTable;
  readonly onTake: (chosen: readonly string[], tuning: string) => void;
}) => (
  <details>
    <summary>{words.together}</summary>
    <p>{words.togetherIntro}</p>
    <ul>
      {together.map((group) => {
        const members = group.map((index) => tunes[index]!);
        const take = () =>
          onTake(
            members.slice(0, MOST_TUNES_IN_SET).map(({ number }) => number),
            members[0]!.tuning,
          );
        return (
          <li key={group[0]}>
            <span>{members.map(nameTune).join('; ')}</span>{' '}
            <button type="button" class="small" onClick={take}>
              {words.take(members.length)}
            </button>
          </li>
        );
      })}
    </ul>
  </details>
);

/** The tunes in their best order, each with what is set before it. */
const FoundOrder = ({
  found: { tunes, set },
  isNew,
  onChoose,
}: {
  readonly found: FoundSet;
  /** It was asked for here, and is brought into view. */
  readonly isNew: boolean;
  /** A tune by its number, and the tuning of the set. */
  readonly onChoose: (tune: string, tuning: string) => void;
}) => {
  const heading = useRef<HTMLHeadingElement>(null);
  // Who comes back to the table finds what was last opened there.
  useEffect(() => {
    if (isNew) scrollTo(heading.current!.parentElement!, 'nearest');
  }, [set]);
  return (
    <div class="found">
      <h4 ref={heading}>{words.found(tunes[0]!.tuning)}</h4>
      <ol>
        {set.order.map((index, place) => {
          const tune = tunes[index]!;
          return (
            <li key={tune.number}>
              <p class="before">{capitalize(nameBreak(set, place))}</p>
              <button type="button" class="plain" onClick={() => onChoose(tune.number, tune.tuning)}>
                {nameTune(tune)}
              </button>
              {tune.changes > 0 && ` · ${words.during(tune.changes)}`}
              {tune.stops > 0 && <span class="stop"> · {words.trouble(tune.stops)}</span>}
            </li>
          );
        })}
      </ol>
      <p>{nameSetTotal(set)}</p>
    </div>
  );
};

/** What is told while the order of a set is asked for, and why there is none. */
const useFoundSet = (
  file: ScoreFile,
  harp: BookTable['harp'],
  set: BookSet,
  onFound: (found: FoundSet) => void,
) => {
  const [asked, setAsked] = useState<{ readonly set: BookSet } | null>(null);
  const [told, setTold] = useState('');
  // Who marks another tune in between does not want the answer any more.
  const asking = asked?.set === set ? asked : null;
  useEffect(() => {
    if (asking === null) {
      setTold('');
      return;
    }
    const leaving = new AbortController();
    setTold(words.asking);
    void fetchSet(file, harp, asking.set, leaving.signal).then(
      (answer) => {
        if (answer.ok) onFound(answer.value);
        else setTold(answer.sentence);
      },
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [asking]);
  return { told, tell: setTold, ask: () => setAsked({ set }), isAsked: asked !== null };
};

interface SetProps {
  readonly file: ScoreFile;
  readonly table: BookTable;
  readonly set: BookSet;
  readonly onSet: (set: BookSet) => void;
}

/** The tuning of the strings for a set: its own, or that of one of the tunes. */
const SetTuning = ({ table, set, onSet }: Omit<SetProps, 'file'>) => {
  const tunings = [...new Set(table.tunes.map(({ tuning }) => tuning))];
  return (
    <label>
      <span>{words.tuning}</span>{' '}
      <select
        name="set-tuning"
        value={set.tuning ?? ''}
        onChange={({ currentTarget: { value } }) =>
          onSet({ ...set, tuning: value === '' ? null : value, found: null })
        }
      >
        <option value="">{words.ownTuning}</option>
        {tunings.map((tuning) => (
          <option key={tuning} value={tuning}>
            {tuning}
          </option>
        ))}
      </select>
    </label>
  );
};

/** The sheet of a set as PDF, with as much music as is wanted. */
const SetSheet = ({
  file,
  table,
  set,
  onTell,
}: Omit<SetProps, 'onSet'> & { readonly onTell: (words: string) => void }) => {
  const [music, setMusic] = useState<SetMusic>('none');
  const save = async (): Promise<void> => {
    onTell(STRINGS.take.preparing(words.pdf));
    const answer = await fetchSetSheet(file, table.harp, set, music);
    if (answer.ok) saveFile(answer.value, nameOfFile(file, STRINGS.take.names.set)('pdf'));
    onTell(answer.ok ? STRINGS.take.done(words.pdf) : STRINGS.take.failed(words.pdf, answer.sentence));
  };
  return (
    <div class="table-request">
      <label>
        <span>{words.music}</span>{' '}
        <select
          name="set-music"
          value={music}
          onChange={({ currentTarget: { value } }) => setMusic(value as SetMusic)}
        >
          {SET_MUSIC.map((each) => (
            <option key={each} value={each}>
              {words.musics[each]}
            </option>
          ))}
        </select>
      </label>
      <button type="button" onClick={() => void save()}>
        {words.pdf}
      </button>
    </div>
  );
};

/** A set of tunes: which, in which tuning, their best order, and a sheet of it. */
export const SetSection = ({
  onChoose,
  ...props
}: SetProps & { readonly onChoose: (tune: string, tuning: string) => void }) => {
  const { file, table, set, onSet } = props;
  const heading = useId();
  const { told, tell, ask, isAsked } = useFoundSet(file, table.harp, set, (found) =>
    onSet({ ...set, found }),
  );
  const isEmpty = set.chosen.length === 0;
  return (
    <section class="set" aria-labelledby={heading}>
      <h3 id={heading} tabIndex={-1}>
        {words.heading}
      </h3>
      <p>{words.intro}</p>
      {table.together.length > 0 && (
        <Together table={table} onTake={(chosen, tuning) => onSet({ chosen, tuning, found: null })} />
      )}
      <div class="table-request">
        <span>{words.chosen(set.chosen.length)}</span>
        <StepButton atEnd={isEmpty} onClick={() => onSet({ ...set, chosen: [], found: null })}>
          {words.clear}
        </StepButton>
        <SetTuning {...props} />
        <StepButton atEnd={isEmpty} onClick={ask}>
          {words.ask}
        </StepButton>
      </div>
      {set.found !== null && <SetSheet {...props} onTell={tell} />}
      <p role="status">{told}</p>
      {set.found !== null && <FoundOrder found={set.found} isNew={isAsked} onChoose={onChoose} />}
    </section>
  );
};
