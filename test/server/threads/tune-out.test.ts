import { describe, expect, it } from 'vitest';
import { openScore } from '../../../engine/score/open.ts';
import { prepareAnnotator } from '../../../render/annotate.ts';
import type { SourceKind } from '../../../render/source/source-kind.ts';
import { annotateDivided } from '../../../server/threads/tasks/annotate/annotate-divided.ts';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { tune } from '../../engine/score/abc/abc-builder.ts';

const FILE = {
  bytes: new TextEncoder().encode(tune('CDEF|^FGAB|=FGAB|]', 'M:4/4\nL:1/4\nK:C')),
  fileName: 't.abc',
};

const write = async (kinds: readonly SourceKind[]) => {
  const made = await annotateScore(
    FILE,
    { instrument: 'lever-harp-34' },
    { kind: 'source', kinds },
    prepareAnnotator(),
    startStageClock(IGNORE_PROGRESS),
  );
  if (!made.ok || made.value.source === null) throw new Error('not written');
  return made.value.source;
};

describe('a tune in ABC that is asked for as a file', () => {
  it('comes back as MEI where that will do', async () => {
    expect((await write(['musicxml', 'mxl', 'mei'])).kind).toBe('mei');
  });

  it.each([['musicxml' as const], ['mxl' as const]])(
    'comes back as %s with its lever changes in it',
    async (kind) => {
      const source = await write([kind]);
      expect(source.kind).toBe(kind);
      const opened = openScore(source.bytes);
      if (!opened.ok) throw new Error(opened.problem.code);
      const { source: text, notes } = opened.value;
      expect(text.format).toBe('musicxml-partwise');
      expect(notes).toHaveLength(12);
      for (const change of ['F♯4', 'F♮4'])
        expect(text.text).toMatch(new RegExp(`<words[^>]*>${change}</words>`, 'u'));
    },
  );
});

describe('a tune in ABC that is divided between two players', () => {
  it('comes back as MusicXML for each where that is asked for', async () => {
    const made = await annotateDivided(
      FILE,
      { divide: 'balanced', instrument: 'concert-harp' },
      { kind: 'source', kinds: ['musicxml'] },
      prepareAnnotator(),
      startStageClock(IGNORE_PROGRESS),
    );
    if (!made.ok) throw new Error(made.problem.code);
    expect(made.value.harps.map(({ source }) => source?.kind)).toEqual(['musicxml', 'musicxml']);
  });
});
