import type { CompareReport } from '../../../api/answers/comparison.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { AskedSection } from '../controls/asked-section.tsx';
import { TableHead } from '../controls/table-head.tsx';
import type { ScoreFile } from '../service/annotate-request.ts';
import { fetchComparison } from '../service/report-request.ts';

const words = LEVER_STRINGS.compare;

const Rows = ({ name, pedal, lever }: Pick<CompareReport, 'pedal' | 'lever'> & { readonly name: string }) => (
  <>
    {[pedal, lever].map((verdict) => (
      <tr key={verdict.harp}>
        <th scope="row">{name}</th>
        <td>{verdict.harp}</td>
        <td>{words.playable(verdict.stops)}</td>
        <td>{words.grade(verdict.grade)}</td>
        <td>{verdict.changes}</td>
        <td>{'tuning' in verdict ? lever.tuning : ''}</td>
      </tr>
    ))}
  </>
);

/** How the part goes on both harps, asked for on request: it plans several keys. */
export const LeverCompare = ({ file }: { readonly file: ScoreFile }) => (
  <AskedSection name="compare" words={words} fetchAnswer={(signal) => fetchComparison(file, signal)}>
    {({ keyName, pedal, lever, transpositions }) => (
      <>
        <div class="table-pane">
          <table>
            <TableHead columns={words.columns} />
            <tbody>
              <Rows name={words.key(0, keyName)} pedal={pedal} lever={lever} />
              {transpositions.map((each) => (
                <Rows key={each.semitones} {...each} name={words.key(each.semitones, each.keyName)} />
              ))}
            </tbody>
          </table>
        </div>
        {transpositions.length === 0 && <p>{words.noKey}</p>}
      </>
    )}
  </AskedSection>
);
