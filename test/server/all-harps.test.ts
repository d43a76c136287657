import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openScore } from '../../engine/score/open.ts';
import type { AnnotateChoice } from '../../server/api/requests/options.ts';
import { listHarpFiles } from '../../server/harp-files.ts';
import { composeHarpsReply } from '../../server/http/reply.ts';
import { chooseReplyType } from '../../server/http/reply-format.ts';
import { newJobFile } from '../../server/jobs/job.ts';
import { nameResults } from '../../server/jobs/result-names.ts';
import { type AnnotatedHarps, annotateHarps } from '../../server/threads/tasks/annotate/annotate-harps.ts';
import type { Target } from '../../server/threads/tasks/annotate/annotated.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../server/threads/tasks/stage-clock.ts';
import { annotator } from '../render/shared-annotator.ts';
import { fluteAndHarp } from '../render/small-score.ts';
import { FERRY_BELLS, twoHarps } from '../two-harps.ts';

const all = async (
  bytes: Uint8Array,
  choice: AnnotateChoice = {},
  target: Target = { kind: 'svg' },
): Promise<AnnotatedHarps> => {
  const done = await annotateHarps(
    { bytes, fileName: '' },
    choice,
    target,
    annotator,
    startStageClock(IGNORE_PROGRESS),
  );
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

const markingIds = (svg: string): string[] =>
  [...svg.matchAll(/<g id="([^"]*)" class="pedal-marking/g)].map(([, id]) => id!);

describe('all harps of a score', () => {
  it('get a part each, a score of them all and one file with all markings', async () => {
    const harps = await all(FERRY_BELLS);
    expect(listHarpFiles(harps, 'svg').map(({ name, ending }) => `${name}.${ending}`)).toEqual([
      'Harp I.svg',
      'Harp II.svg',
      'all harps.svg',
      'all harps.musicxml',
    ]);
    const [first, second] = harps.harps.map(({ annotation }) => markingIds(annotation.pages.join('')));
    const together = markingIds(harps.together!.pages.join(''));
    expect(together.filter((id) => id.startsWith('harp-1-'))).toHaveLength(first!.length);
    expect(together.filter((id) => id.startsWith('harp-2-'))).toHaveLength(second!.length);
  });

  it('have each their markings at their own staves in the score of them all', async () => {
    const { together } = await all(FERRY_BELLS);
    const svg = together!.pages.join('');
    const heights = (harp: number): number[] =>
      [
        ...svg.matchAll(
          new RegExp(
            `id="harp-${harp}-[^"]*" class="pedal-marking[^>]*data-bar="1"[^>]*translate\\(\\S+ (\\S+)\\)`,
            'g',
          ),
        ),
      ].map(([, y]) => Number(y));
    expect(Math.max(...heights(1))).toBeLessThan(Math.min(...heights(2)));
  });

  it('are in the file so that it reads back the same for each harp, and annotated again it stays', async () => {
    const { source } = await all(FERRY_BELLS, {}, { kind: 'source', kinds: ['musicxml'] });
    for (const part of ['Harp I', 'Harp II']) {
      const before = openScore(FERRY_BELLS, { part });
      const after = openScore(source!.bytes, { part });
      if (!before.ok || !after.ok) throw new Error('not read');
      expect(after.value.markings.length).toBeGreaterThan(1);
      expect(after.value.notes.map(({ pitch, onset }) => ({ pitch, onset }))).toEqual(
        before.value.notes.map(({ pitch, onset }) => ({ pitch, onset })),
      );
    }
    const again = await all(source!.bytes, {}, { kind: 'source', kinds: ['musicxml'] });
    expect(again.source!.bytes).toEqual(source!.bytes);
  });

  it('follow the decisions of the request for the harp that it names, and no other', async () => {
    const pins = [{ kind: 'move', pedal: 'G', position: 'flat', at: { barIndex: 4, beat: '1' } }] as const;
    const { harps } = await all(FERRY_BELLS, { part: 'Harp II', pins: [...pins] }, { kind: 'plan' });
    const gs = harps.map(({ annotation: { plan } }) =>
      plan.kind === 'pedal' ? plan.plan.moves.filter(({ letter }) => letter === 'G').length : 0,
    );
    expect(gs[0]).toBe(0);
    expect(gs[1]).toBeGreaterThan(0);
  });

  it('that bear one name are told apart by numbers', async () => {
    const named = await all(
      twoHarps(['C4 E4 G4 C5 / R'], ['C4 E4 G4 C5 / R'], ['Harp', 'Harp']),
      {},
      { kind: 'plan' },
    );
    expect(listHarpFiles(named, 'report').map(({ name }) => name)).toEqual(['Harp', 'Harp 2']);
  });

  it('are the one harp of a score that has no more, without a score of them all', async () => {
    const harps = await all(fluteAndHarp(['c4', 'c4'], {}));
    expect(harps.together).toBeNull();
    expect(listHarpFiles(harps, 'svg').map(({ name }) => name)).toEqual(['Harp', 'all harps']);
  });

  it('are sent as one archive, the same for the same score, or as the file alone', async () => {
    const harps = await all(FERRY_BELLS, {}, { kind: 'pdf' });
    const [first, second] = [1, 2].map(() => composeHarpsReply(harps, { kind: 'pdf' }));
    if (!first!.ok || !second!.ok) throw new Error('no answer');
    expect(first!.value.body).toEqual(second!.value.body);
    expect(Object.keys(unzipSync(first!.value.body))).toEqual([
      'Harp I.pdf',
      'Harp II.pdf',
      'all harps.pdf',
      'all harps.musicxml',
    ]);
    const file = composeHarpsReply(harps, { kind: 'source', kinds: ['musicxml'] });
    expect(file.ok && file.value.headers['Content-Type']).toBe('application/vnd.recordare.musicxml+xml');
  });

  it('are offered as an archive, which one part is not', () => {
    const accepts = (types: string[]) => types.find((type) => type === 'application/zip') ?? false;
    expect(chooseReplyType(accepts, true).ok).toBe(true);
    expect(chooseReplyType(accepts, false).ok).toBe(false);
  });

  it('stand in a folder of the results of a job', () => {
    const done = ['a/ferry.musicxml', 'b/bells.mei', 'b/bells.xml'].map((name) => ({
      ...newJobFile(name, 'waiting'),
      state: 'done' as const,
      headers: { 'Content-Type': 'application/zip' },
    }));
    expect(nameResults(done)).toEqual(['a/ferry/', 'b/bells/', 'b/bells-2/']);
  });
});
