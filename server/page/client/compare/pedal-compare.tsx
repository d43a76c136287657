import { STRINGS } from '../../strings/strings.ts';
import { TableHead } from '../controls/table-head.tsx';
import type { PlanChoices } from '../options/choices.ts';
import type { ComparedKeys, ComparedPart } from './compare-messages.ts';
import { ComparedSection } from './compared-section.tsx';

const words = STRINGS.compare;

const KeyTable = ({ keys }: { readonly keys: ComparedKeys }) => (
  <div class="table-pane">
    <table>
      <TableHead columns={words.columns} />
      <tbody>
        {keys.map(({ semitones, keyName, otherWay, pedal }) => (
          <tr key={semitones}>
            <th scope="row">{words.key(semitones, keyName, otherWay)}</th>
            <td>{words.playable(pedal.stops)}</td>
            <td>{words.grade(pedal.grade)}</td>
            <td>{pedal.changes}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** How the part goes on the pedal harp in other keys, asked for on request: it plans each. */
export const PedalCompare = ({
  compared,
  choices,
}: {
  readonly compared: ComparedPart;
  readonly choices: PlanChoices;
}) => (
  <ComparedSection words={words} question={() => ({ kind: 'keys', ...compared, choices })}>
    {(found) =>
      found.kind === 'keys' && (
        <>
          <p>{words.order}</p>
          <KeyTable keys={found.keys} />
        </>
      )
    }
  </ComparedSection>
);
