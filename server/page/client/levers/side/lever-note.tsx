import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { SmallStepButton } from '../../controls/step-button.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { endOfBar } from '../../decisions/places.ts';
import { OmittedNote, StringActions } from '../../decisions/string-actions.tsx';
import { PluckedAt } from '../../findings/note-card.tsx';
import type { ReadPart } from '../../planner/planned-part.ts';
import { leverNoteCourse } from './lever-note-course.ts';

const words = LEVER_STRINGS.note;

interface LeverNoteProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly actions: DecisionActions;
  /** Id of the note. */
  readonly note: string;
}

/** What can be decided about a note of the lever harp. */
export const LeverNoteActions = ({ part, report, actions, note }: LeverNoteProps) => {
  const place = part.notes.get(note);
  const course = leverNoteCourse(part, report, note);
  if (place === undefined || course === null) return null;
  const { notes, bar } = place;
  const { string, lever } = course;
  return (
    <div class="actions">
      <StringActions note={place} actions={actions} leaveOut={STRINGS.note.leaveOut} />
      {lever !== null && (
        <div class="buttons">
          <SmallStepButton
            onClick={() =>
              actions.decide({
                kind: 'pin',
                pin: {
                  kind: 'lever-position',
                  lever: string,
                  to: lever,
                  from: { barIndex: notes.barIndex, beat: notes.beat },
                  until: endOfBar(part, bar),
                },
              })
            }
          >
            {words.keep(LEVER_STRINGS.detail.to(string, lever))}
          </SmallStepButton>
        </div>
      )}
    </div>
  );
};

/** A note: its string, the lever before, at and after it, and what can be decided about it. */
export const LeverNote = ({
  onChange,
  ...props
}: LeverNoteProps & {
  /** A change is to be looked at: an index. */
  readonly onChange: (change: number) => void;
}) => {
  const { part, report, actions, note } = props;
  const place = part.notes.get(note)!;
  const course = leverNoteCourse(part, report, note);
  const isOmitted = report.omitted.includes(place.head);
  const link = (at: number) => {
    const { change, hand, barName, beat } = report.moves[at]!;
    return (
      <button type="button" class="plain" onClick={() => onChange(at)}>
        {LEVER_STRINGS.chart.point(change, hand, barName, beat, false)}
      </button>
    );
  };
  return (
    <article>
      <PluckedAt part={part} note={note} />
      {isOmitted && <OmittedNote note={place} actions={actions} />}
      {course === null ? (
        !isOmitted && <p>{words.noString}</p>
      ) : (
        <>
          <LeverNoteActions {...props} />
          <dl>
            <dt>{STRINGS.note.string}</dt>
            <dd>{words.onString(course.string, course.lever)}</dd>
            {course.lever !== null && (
              <>
                <dt>{words.setBy}</dt>
                <dd>{course.setBy === null ? words.setAtStart : link(course.setBy)}</dd>
                <dt>{STRINGS.note.movesOn}</dt>
                <dd>{course.movesOn === null ? STRINGS.note.movesNoMore : link(course.movesOn)}</dd>
              </>
            )}
          </dl>
        </>
      )}
    </article>
  );
};
