import { capitalize, type Grade, nameBars } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';

export interface DifficultyDetailsProps {
  readonly grade: Grade;
  readonly reasons: readonly string[];
  /** Printed numbers of the first and the last bar of each, and how hard it is. */
  readonly passages: readonly {
    readonly from: string;
    readonly until: string;
    readonly grade: Grade;
    readonly playable: boolean;
    readonly reasons: readonly string[];
  }[];
}

/** How hard the part is in a phrase; opened, why, and which passages are not easy. */
export const DifficultyDetails = ({ grade, reasons, passages }: DifficultyDetailsProps) => {
  const words = STRINGS.difficulty;
  const harder = passages.filter(({ grade: own, playable }) => own !== 'easy' || !playable);
  return (
    <details class="difficulty">
      <summary>{words.phrase(grade)}</summary>
      <ul>
        {reasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
      {harder.length > 0 && (
        <table>
          <caption>{words.passages}</caption>
          <tbody>
            {harder.map((passage, i) => (
              <tr key={i}>
                <th scope="row">{capitalize(nameBars(passage.from, passage.until))}</th>
                <td class="grade">{words.grade(passage.grade)}</td>
                <td>{passage.reasons.join(' ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p class="aside">{words.ownScale}</p>
    </details>
  );
};
