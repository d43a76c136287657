import { planPart } from '../../engine/plan-part.ts';
import { openScore } from '../../engine/score/open.ts';
import { createAnnotator } from '../../render/annotate.ts';
import { writeLongPart } from './long-part.ts';

/**
 * The memory of one annotator over many scores, each with music of its own, so that all that is kept of drawings is soon
 * full and stays so.
 *
 * `node test/bench/built.mjs memory [scores [bars]]`
 */

const [scores = '1000', bars = '24'] = process.argv.slice(2);

const annotator = await createAnnotator();
const told = new Set([1, 100, 200, 500, Number(scores)]);
for (let i = 1; i <= Number(scores); i += 1) {
  const opened = openScore(new TextEncoder().encode(writeLongPart(Number(bars), i)), {});
  if (!opened.ok) throw new Error(opened.problem.code);
  const drawn = await annotator.engrave(opened.value, planPart(opened.value, {}), {}, 'svg');
  if (!drawn.ok) throw new Error(drawn.problem.code);
  if (!told.has(i)) continue;
  const { heapUsed, rss } = process.memoryUsage();
  console.info(
    `after ${i} scores: ${(rss / 1e6).toFixed(0)} MB resident, ${(heapUsed / 1e6).toFixed(0)} MB of heap`,
  );
}
