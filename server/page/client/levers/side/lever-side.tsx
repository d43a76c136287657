import type { Extent } from '../../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { useKeptFocus } from '../../controls/kept-focus.ts';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { FindingItems } from '../../findings/finding-items.tsx';
import { FixList, listSuggestions } from '../../findings/fixes/fix-list.tsx';
import { ReadingRemarks } from '../../findings/reading-remarks.tsx';
import type { Choices } from '../../options/choices.ts';
import { isMadeInPause } from '../../planner/move-bounds.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import { DetailSection } from '../../selection/detail-section.tsx';
import { boundsOfChange, pinOfChange } from '../lever-moves.ts';
import { ChangeActions } from './lever-actions.tsx';
import { LeverNote } from './lever-note.tsx';

interface LeverDetailProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly actions: DecisionActions;
  /** Index into the moves; null where no change is looked at. */
  readonly move: number | null;
  /** Id of the note that is looked at; null where none is. */
  readonly note: string | null;
  readonly onChange: (change: number) => void;
  readonly onLeave: () => void;
}

const ChangeCard = ({
  part,
  report,
  actions,
  at,
}: Pick<LeverDetailProps, 'part' | 'report' | 'actions'> & { readonly at: number }) => {
  const words = LEVER_STRINGS.detail;
  const told = report.moves[at]!;
  const nameNote = (id: string | null): string | null => {
    const note = id === null ? undefined : part.notes.get(id);
    return note === undefined ? null : words.note(note.name, part.bars[note.bar]!.name);
  };
  return (
    <article class={told.hand}>
      <p>
        {words.to(told.string, told.to)}
        {told.handAway !== null && ` ${words.made(told.hand)}`}
      </p>
      <p>
        {words.at(told.barName, told.beat)}
        {isMadeInPause(part, boundsOfChange(report.moves, at)) && `, ${STRINGS.detail.inPause}`}
      </p>
      <p>
        {told.handAway === null
          ? words.noTime
          : words.away(told.hand, nameNote(told.handAway.after), nameNote(told.handAway.before))}
      </p>
      {told.restores && <p>{words.restores(told.to)}</p>}
      {told.onlyAt !== null && <p>{words.onlyAt[told.onlyAt]}</p>}
      {pinOfChange(actions.decisions, told) !== null && <p>{LEVER_STRINGS.decisions.pinned}</p>}
      <ChangeActions part={part} moves={report.moves} actions={actions} at={at} />
    </article>
  );
};

/** What is told of the change or the note that is looked at. */
export const LeverDetail = ({ move, note, onChange, onLeave, ...props }: LeverDetailProps) => {
  const { part, report } = props;
  const words = LEVER_STRINGS.detail;
  const place = note === null ? undefined : part.notes.get(note);
  const heading =
    move !== null
      ? report.moves[move]!.change
      : place === undefined
        ? words.panel
        : STRINGS.detail.heading.note(place.name);
  const isEmpty = move === null && place === undefined;
  return (
    <DetailSection heading={heading} onLeave={isEmpty ? null : onLeave}>
      {isEmpty && <p>{words.nothing}</p>}
      {move !== null && <ChangeCard {...props} at={move} />}
      {place !== undefined && <LeverNote {...props} note={note!} onChange={onChange} />}
    </DetailSection>
  );
};

const extentOfReported = ({ barName, untilName, beat, places, notes }: ReportedLeverFinding): Extent => ({
  from: barName,
  until: untilName,
  beat,
  places: places.length,
  notes: notes.length,
});

type ReportedLeverFinding = LeverPlanReport['findings'][number];

/** What the user should know, the gravest first. */
export const LeverFindings = ({
  report,
  remarks,
  selected,
  onSelect,
}: {
  readonly report: LeverPlanReport;
  /** How unclear places in the file were read. */
  readonly remarks: ReadPart['remarks'];
  readonly selected: number | null;
  readonly onSelect: (finding: number) => void;
}) => (
  <section class="findings">
    <h2>{LEVER_STRINGS.findings.heading}</h2>
    {report.findings.length === 0 && <p>{LEVER_STRINGS.findings.none}</p>}
    <FindingItems
      findings={report.findings.map((finding) => ({
        severity: finding.severity,
        kind: STRINGS.findings.title(finding.code),
        extent: extentOfReported(finding),
        sentence: finding.sentence,
        alike: `${finding.severity} ${finding.code}`,
      }))}
      chosen={selected}
      onChoose={onSelect}
      below={(at) => <FixList items={listSuggestions(report.findings[at]!.suggestions)} />}
    />
    <ReadingRemarks remarks={remarks} />
  </section>
);

const TuningRow = ({
  cells: [name = '', ...figures],
  isChosen,
  onTune,
}: {
  /** Its name, then its figures. */
  readonly cells: readonly string[];
  readonly isChosen: boolean;
  readonly onTune: (tuning: string) => void;
}) => {
  const words = LEVER_STRINGS.tunings;
  return (
    <tr>
      <th scope="row">{name}</th>
      {figures.map((value, k) => (
        <td key={k}>{value}</td>
      ))}
      <td>
        {isChosen ? (
          words.chosen
        ) : (
          <button
            type="button"
            class="small"
            aria-label={STRINGS.spoken(words.choose(name))}
            onClick={() => onTune(name)}
          >
            {words.choosing}
          </button>
        )}
      </td>
    </tr>
  );
};

/** Other tunings of the open strings, each with what it would cost. */
export const LeverTunings = ({
  report,
  choices,
  onTune,
}: {
  readonly report: LeverPlanReport;
  readonly choices: Choices;
  readonly onTune: (tuning: string | null) => void;
}) => {
  const words = LEVER_STRINGS.tunings;
  const { columns, rows } = words.table(report.tunings);
  const section = useKeptFocus();
  return (
    <section ref={section} class="tunings">
      <h2 tabIndex={-1}>{words.heading}</h2>
      <p>{choices.tuning === undefined ? words.intro : words.own}</p>
      <div class="table-pane">
        <table>
          <thead>
            <tr>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {column === '' ? <span class="hidden">{words.choosing}</span> : column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((cells, i) => (
              <TuningRow key={cells[0]} cells={cells} isChosen={i === 0} onTune={onTune} />
            ))}
          </tbody>
        </table>
      </div>
      {choices.tuning !== undefined && (
        <button type="button" onClick={() => onTune(null)}>
          {words.back}
        </button>
      )}
    </section>
  );
};
