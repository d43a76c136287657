import { STRINGS } from '../../strings/strings.ts';
import { AskedSection } from '../controls/asked-section.tsx';
import { TableHead } from '../controls/table-head.tsx';
import type { ScoreFile } from '../service/annotate-request.ts';
import { fetchComparison } from '../service/report-request.ts';

const words = STRINGS.compare;

/** How the part goes on the pedal harp in other keys, asked for on request: it plans each. */
export const PedalCompare = ({ file }: { readonly file: ScoreFile }) => (
  <AskedSection name="compare" words={words} fetchAnswer={(signal) => fetchComparison(file, signal)}>
    {({ pedalKeys }) => (
      <div class="table-pane">
        <table>
          <TableHead columns={words.columns} />
          <tbody>
            {pedalKeys.map(({ semitones, keyName, pedal }) => (
              <tr key={semitones}>
                <th scope="row">{words.key(semitones, keyName)}</th>
                <td>{words.playable(pedal.stops)}</td>
                <td>{words.grade(pedal.grade)}</td>
                <td>{pedal.changes}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    )}
  </AskedSection>
);
