import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import { TableHead } from '../controls/table-head.tsx';
import type { ComparedRow } from './compared-plan.ts';

/** Two plans side by side. */
export const PlanTable = ({ rows }: { readonly rows: readonly ComparedRow[] }) => (
  <div class="table-pane">
    <table>
      <TableHead columns={VARIANT_STRINGS.columns} />
      <tbody>
        {rows.map(([what, here, there]) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td>{here}</td>
            <td>{there}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
