import { createAnnotator } from '../../render/annotate.ts';
import { annotateBytes } from '../render/annotate-bytes.ts';
import { writeLongPart } from './long-part.ts';

/**
 * What a study edition costs beside the PDF of the part alone.
 *
 * `npx tsx test/bench/study.ts`: a part of some ten pages as PDF and as a study edition, in turns, each in an annotator of
 * its own that is warm; the time of the processor, which other work on the machine does not lengthen. At most 2.5 times is wanted.
 */

const ROUNDS = 3;
const BARS = 160;

const bytes = (round: number): Uint8Array => new TextEncoder().encode(writeLongPart(BARS, round + 1));

/** One for each: what the other has drawn is not to be found again. */
const annotators = { part: await createAnnotator(), study: await createAnnotator() };

const measure = async (round: number, edition: 'part' | 'study') => {
  const before = process.cpuUsage();
  const made = await annotateBytes(annotators[edition], bytes(round), { engraving: { edition } }, 'pdf');
  if (!made.ok) throw new Error(made.problem.code);
  const { user, system } = process.cpuUsage(before);
  return { ms: (user + system) / 1000, pages: made.value.pages.length };
};

for (const edition of ['part', 'study'] as const) await measure(ROUNDS, edition);
for (let round = 0; round < ROUNDS; round += 1) {
  const part = await measure(round, 'part');
  const study = await measure(round, 'study');
  console.info(
    `part: ${part.pages} pages, ${part.ms.toFixed(0)} ms; study edition: ${study.pages} pages, ${study.ms.toFixed(0)} ms; ` +
      `${(study.ms / part.ms).toFixed(2)} x`,
  );
}
