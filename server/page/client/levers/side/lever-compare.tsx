import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import type { ComparedHarps, ComparedPart } from '../../compare/compare-messages.ts';
import { ComparedSection } from '../../compare/compared-section.tsx';
import { TableHead } from '../../controls/table-head.tsx';
import type { LeverChoices } from '../../options/choices.ts';

const words = LEVER_STRINGS.compare;

const Rows = ({ name, pedal, lever }: Pick<ComparedHarps, 'pedal' | 'lever'> & { readonly name: string }) => (
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

const HarpTable = ({ keyName, pedal, lever, transpositions }: ComparedHarps) => (
  <>
    <div class="table-pane">
      <table>
        <TableHead columns={words.columns} />
        <tbody>
          <Rows name={words.key(0, keyName)} pedal={pedal} lever={lever} />
          {transpositions.map((each) => (
            <Rows
              key={each.semitones}
              {...each}
              name={words.key(each.semitones, each.keyName, each.otherWay)}
            />
          ))}
        </tbody>
      </table>
    </div>
    {transpositions.length === 0 && <p>{words.noKey}</p>}
  </>
);

/** How the part goes on both harps, asked for on request: it plans several keys. */
export const LeverCompare = ({
  compared,
  choices,
}: {
  readonly compared: ComparedPart;
  readonly choices: LeverChoices;
}) => (
  <ComparedSection words={words} question={() => ({ kind: 'harps', ...compared, choices })}>
    {(found) => found.kind === 'harps' && <HarpTable {...found.harps} />}
  </ComparedSection>
);
