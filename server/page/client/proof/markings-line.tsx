import { useState } from 'preact/hooks';
import type { ProofReport } from '../../../api/answers/proof-report.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { Asked } from '../controls/asked-answer.ts';
import { goToSection } from '../controls/scrolling.ts';
import type { Choices } from '../options/choices.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { AskedProof } from './asked-proof.ts';
import { MarkButton } from './mark-button.tsx';

const words = STRINGS.proof;

/** How the markings fare, as far as that is known. */
const fareOf = (asked: Asked<ProofReport>): string => {
  if (asked.kind !== 'ready') return '';
  const { correct, findings } = asked.answer;
  const stops = findings.filter(({ severity }) => severity === 'stop').length;
  return `: ${correct ? words.fares.right : words.fares.wrong(stops)}`;
};

/**
 * Says at the head of the piece that the file brings markings of its own, and how they fare: the plan and the pages are
 * tringle's. Leads to what is told of them, and to the attempt.
 */
export const MarkingsLine = ({
  proof: { asked },
  part,
  ...attempt
}: {
  readonly proof: AskedProof;
  readonly file: ScoreFile;
  readonly part: ReadPart;
  readonly choices: Choices;
}) => {
  const [seen, setSeen] = useState(false);
  if (seen) return null;
  return (
    <section class="restored" aria-label={words.heading}>
      <p>
        {words.atHead(part.markings)}
        {fareOf(asked)}
      </p>
      <button
        type="button"
        class="small"
        onClick={() => goToSection(document.querySelector<HTMLElement>('section.proof h2'))}
      >
        {words.show}
      </button>
      <MarkButton {...attempt} small />
      <button type="button" class="small" onClick={() => setSeen(true)}>
        {STRINGS.decisions.understood}
      </button>
    </section>
  );
};
