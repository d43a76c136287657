import { createAnnotator } from '../../render/annotate.ts';
import { annotateBytes } from '../render/annotate-bytes.ts';
import { writeLongPart } from './long-part.ts';

/**
 * What a study edition costs beside the PDF of the part alone.
 *
 * `npx tsx test/bench/study.ts`: a part of some ten pages as PDF and as a study edition, in turns in one annotator that is
 * warm; the time of the processor, which other work on the machine does not lengthen. At most 2.5 times is wanted.
 */

const ROUNDS = 3;
const BARS = 110;

const bytes = (round: number): Uint8Array => new TextEncoder().encode(writeLongPart(BARS, round + 1));

const annotator = await createAnnotator();

const measure = async (round: number, edition: 'part' | 'study') => {
  const before = process.cpuUsage();
  const made = await annotateBytes(annotator, bytes(round), { engraving: { edition } }, 'pdf');
  if (!made.ok) throw new Error(made.problem.code);
  const { user, system } = process.cpuUsage(before);
  return { ms: (user + system) / 1000, pages: made.value.pages.length };
};

await measure(ROUNDS + 1, 'part');
for (let round = 0; round < ROUNDS; round += 1) {
  // The lines that were drawn are kept: another part each time, and the study edition of another one first.
  const study = await measure(2 * round, 'study');
  const part = await measure(2 * round + 1, 'part');
  console.info(
    `part: ${part.pages} pages, ${part.ms.toFixed(0)} ms; study edition: ${study.pages} pages, ${study.ms.toFixed(0)} ms; ` +
      `${(study.ms / part.ms).toFixed(2)} x`,
  );
}
