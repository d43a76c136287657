import type { Remark } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.findings;

/** How the file was read and printed, where that was not plain; nothing if there is nothing to say. */
export const ReadingRemarks = ({
  remarks,
}: {
  readonly remarks: readonly Pick<Remark, 'barName' | 'message'>[];
}) =>
  remarks.length === 0 ? null : (
    <details>
      <summary>{words.remarks}</summary>
      <ul>
        {remarks.map(({ barName, message }, i) => (
          <li key={i}>{words.remark(barName, message)}</li>
        ))}
      </ul>
    </details>
  );
