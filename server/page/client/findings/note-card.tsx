import { formatChange, nameOfPosition, rationalKey } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { endOfBar } from '../decisions/places.ts';
import { OmittedNote, StringActions } from '../decisions/string-actions.tsx';
import type { PlannedPart, ReadPart } from '../planner/planned-part.ts';
import type { Spot } from '../selection/spot.ts';
import { type NoteCourse, noteCourse } from './note-course.ts';

const words = STRINGS.note;

interface NoteCardProps {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
  /** Id of the note. */
  readonly note: string;
  readonly onGo: (spot: Spot) => void;
}

/** A move in a sentence, which leads to it. */
const MoveLink = ({
  part,
  move,
  onGo,
}: {
  readonly part: PlannedPart;
  readonly move: number;
  readonly onGo: (spot: Spot) => void;
}) => {
  const { letter, to, foot, bar, beat } = part.plan.moves[move]!;
  return (
    <button type="button" class="plain" onClick={() => onGo({ kind: 'move', move })}>
      {words.move(formatChange(letter, to), STRINGS.foot[foot], part.bars[bar]!.name, rationalKey(beat))}
    </button>
  );
};

const Course = ({
  part,
  course,
  onGo,
}: {
  readonly part: PlannedPart;
  readonly course: NoteCourse;
  readonly onGo: (spot: Spot) => void;
}) => {
  const { letter, position, string, setBy, movesOn, delays } = course;
  const link = (move: number) => <MoveLink key={move} part={part} move={move} onGo={onGo} />;
  return (
    <dl>
      <dt>{words.string}</dt>
      <dd>
        {string === null ? '' : `${words.onString(string)}, `}
        {words.pedal(letter, nameOfPosition(position))}
      </dd>
      <dt>{words.setBy}</dt>
      <dd>{setBy === undefined ? words.notSet : setBy === null ? words.setAtStart : link(setBy)}</dd>
      <dt>{words.movesOn}</dt>
      <dd>{movesOn === null ? words.movesNoMore : link(movesOn)}</dd>
      {delays.length > 0 && (
        <>
          <dt>{words.delays}</dt>
          <dd>{delays.map(link)}</dd>
        </>
      )}
    </dl>
  );
};

/** What can be decided about a note. */
export const NoteActions = ({ part, actions, note }: Omit<NoteCardProps, 'onGo'>) => {
  const course = noteCourse(part, note);
  if (course === null) return null;
  const place = part.notes.get(note)!;
  const { notes, bar } = place;
  const at = { barIndex: notes.barIndex, beat: notes.beat };
  const act = (key: string, label: string, onClick: () => void) => (
    <StepButton key={key} small atEnd={false} onClick={onClick}>
      {label}
    </StepButton>
  );
  return (
    <div class="actions">
      <StringActions note={place} actions={actions} leaveOut={words.leaveOut} />
      <div class="buttons">
        {act('keep', words.keep(formatChange(course.letter, course.position)), () =>
          actions.decide({
            kind: 'pin',
            pin: {
              kind: 'position',
              pedal: course.letter,
              position: nameOfPosition(course.position),
              from: at,
              until: endOfBar(part, bar),
            },
          }),
        )}
        {act('forbid', words.forbid, () =>
          actions.decide({
            kind: 'pin',
            pin: {
              kind: 'forbid',
              from: { barIndex: notes.barIndex, beat: '1' },
              until: endOfBar(part, bar),
            },
          }),
        )}
      </div>
    </div>
  );
};

/** Where a note is plucked: before the one that is looked at, where that one is tied to it. */
export const PluckedAt = ({ part, note }: { readonly part: ReadPart; readonly note: string }) => {
  const { head, notes } = part.notes.get(note)!;
  return (
    <p>
      {STRINGS.detail.at(part.bars[notes.barIndex]!.name, notes.beat)}.{head !== note && ` ${words.ringsOn}`}
    </p>
  );
};

/** A note: its string, the pedal before, at and after it, and what can be decided about it. */
export const NoteCard = ({ part, actions, note, onGo }: NoteCardProps) => {
  const place = part.notes.get(note)!;
  const course = noteCourse(part, note);
  const isOmitted = part.omitted.has(place.head);
  return (
    <article>
      <PluckedAt part={part} note={note} />
      {isOmitted && <OmittedNote note={place} actions={actions} />}
      {course === null ? (
        !isOmitted && <p>{words.noPedal}</p>
      ) : (
        <>
          <NoteActions part={part} actions={actions} note={note} />
          <Course part={part} course={course} onGo={onGo} />
        </>
      )}
    </article>
  );
};
