import { formatSetting, type Plan } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import { TableHead } from '../controls/table-head.tsx';

const { rows, columns } = VARIANT_STRINGS;

const countOf = ({ findings }: Plan, wanted: 'stop' | 'warn'): number =>
  findings.filter(({ severity }) => severity === wanted).length;

/** What each row tells of a plan. */
const TOLD: readonly (readonly [name: string, tell: (plan: Plan) => string])[] = [
  [rows.moves, ({ moves }) => `${moves.length}`],
  [rows.difficulty, ({ summary }) => STRINGS.difficulty.grade(summary.difficulty.grade)],
  [rows.notPlayable, (plan) => `${countOf(plan, 'stop')}`],
  [rows.warnings, (plan) => `${countOf(plan, 'warn')}`],
  [rows.start, ({ initial }) => formatSetting(initial)],
];

/** Two plans side by side. */
export const PlanTable = ({ here, there }: { readonly here: Plan; readonly there: Plan }) => (
  <div class="table-pane">
    <table>
      <TableHead columns={columns} />
      <tbody>
        {TOLD.map(([name, tell]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{tell(here)}</td>
            <td>{tell(there)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
