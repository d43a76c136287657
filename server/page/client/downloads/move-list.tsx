import {
  extentOf,
  formatSetting,
  type Move,
  namePiece,
  orderForPeople,
  type PedalFinding,
  rationalKey,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { TableHead } from '../controls/table-head.tsx';
import type { PlannedPart } from '../planner/planned-part.ts';

const words = STRINGS.printed;

const remarksOf = (part: PlannedPart, { window, graceNote, restores }: Move): string => {
  const note = window.before === null ? undefined : part.notes.get(window.before.note);
  return [
    ...(note === undefined ? [words.neededLater] : [words.neededBy(note.name, part.bars[note.bar]!.name)]),
    ...(graceNote === null ? [] : [words.beforeGrace]),
    ...(restores ? [words.restores] : []),
  ].join('; ');
};

const Row = ({ part, move }: { readonly part: PlannedPart; readonly move: Move }) => (
  <tr>
    <th scope="row">{part.bars[move.bar]!.name}</th>
    <td>{STRINGS.beat(rationalKey(move.beat))}</td>
    <td>{STRINGS.foot[move.foot]}</td>
    <td>{move.letter}</td>
    <td>{STRINGS.position(move.from)}</td>
    <td>
      <strong>{STRINGS.position(move.to)}</strong>
    </td>
    <td>{remarksOf(part, move)}</td>
  </tr>
);

const describeFinding = (finding: PedalFinding): string =>
  words.finding(STRINGS.findings.severity(finding.severity), extentOf(finding), finding.sentence);

/** The moves as a list for paper: the setting at the start, each move, and what is to be looked at. */
export const MoveList = ({ part, fileName }: { readonly part: PlannedPart; readonly fileName: string }) => {
  const { plan, titles, partName } = part;
  return (
    <main>
      <h1>{words.title(namePiece(titles) || fileName)}</h1>
      <p>{[titles.composer, partName].filter((each) => each !== '').join(' · ')}</p>
      <p class="start-setting">{words.start(formatSetting(plan.initial))}</p>
      {plan.moves.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <table>
          <TableHead columns={words.columns} />
          <tbody>
            {plan.moves.map((move, i) => (
              <Row key={i} part={part} move={move} />
            ))}
          </tbody>
        </table>
      )}
      {plan.findings.length > 0 && (
        <section>
          <h2>{words.findings}</h2>
          <ul>
            {orderForPeople<PedalFinding>(plan.findings).map(({ finding, at }) => (
              <li key={at}>{describeFinding(finding)}</li>
            ))}
          </ul>
        </section>
      )}
      <p class="colophon">{words.source(plan.moves.length)}</p>
    </main>
  );
};
