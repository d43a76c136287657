import { describe, expect, it } from 'vitest';
import { openScore } from '../../../engine/score/open.ts';
import { SOURCE_TYPES, type SourceKind } from '../../../render/source/source-kind.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import { computeProof } from '../../../server/threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { canValidate, schemaErrors } from '../../corpus/schema-errors.ts';
import { buildHarp, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotator } from '../../render/shared-annotator.ts';
import { meiScore } from '../../render/small-score.ts';

const clock = () => startStageClock(IGNORE_PROGRESS);

/** Two pedals of the left foot for one chord: one foot cannot make both there. */
const MUSICXML = new TextEncoder().encode(
  buildHarp(
    note('C4', 1) + note('D4', 1) + rest(1) + note('E4', 1),
    note('C#4', 4) + note('D#4', 4, { chord: true }),
  ),
);
const MEI = meiScore({ bars: ['c4.4 d4.4 r.4 e4.4/R', 'c#4+d#4.1/R'] });

const annotate = async (bytes: Uint8Array, query: Record<string, unknown>) => {
  const kinds = Object.keys(SOURCE_TYPES) as SourceKind[];
  const choice = annotateOptions.parse(query);
  const annotated = await annotateScore(
    { bytes, fileName: 'part.xml' },
    choice,
    { kind: 'source', kinds },
    annotator,
    clock(),
  );
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value;
};

/** The same, and a pedal of the right foot that moves with a note of its own before. */
const BOTH_MUSICXML = new TextEncoder().encode(
  buildHarp(
    note('C4', 1) + note('D4', 1) + note('E4', 1) + note('Eb4', 1),
    note('C#4', 4) + note('D#4', 4, { chord: true }),
  ),
);
const BOTH_MEI = meiScore({ bars: ['c4.4 d4.4 e4.4 eb4.4/R', 'c#4+d#4.1/R'] });

describe.each([
  ['MusicXML', MUSICXML, BOTH_MUSICXML],
  ['MEI', MEI, BOTH_MEI],
] as const)('an annotated %s', (_, bytes, both) => {
  it.each(['foot', 'note'] as const)(
    'with changes at the %s proves right, since it says so itself',
    async (marksAt) => {
      const { source, annotation } = await annotate(bytes, { marksAt });
      const proof = await computeProof({ bytes: source!.bytes, fileName: 'part.xml' }, {}, clock());
      expect(proof.ok && proof.value.report).toMatchObject({ correct: true, findings: [] });
      const early = annotation.remarks.filter(({ code }) => code === 'mark-before-note');
      expect(early.length > 0).toBe(marksAt === 'note');
      const told = new TextDecoder().decode(source!.bytes).match(/>(?:[A-G]: )?foot here</g) ?? [];
      expect(told).toHaveLength(early.length);
      const opened = openScore(source!.bytes);
      if (canValidate && opened.ok) expect(schemaErrors(opened.value.source)).toEqual([]);
    },
  );

  it('says in the language of the pages where the foot moves, and of which pedals where others stand there too', async () => {
    const german = await annotate(bytes, { marksAt: 'note', language: 'german' });
    expect(new TextDecoder().decode(german.source!.bytes)).toContain('Fuß hier');
    const { source } = await annotate(both, { marksAt: 'note' });
    expect(new TextDecoder().decode(source!.bytes)).toMatch(/>[CD]: foot here</);
    const proof = await computeProof({ bytes: source!.bytes, fileName: 'part.xml' }, {}, clock());
    expect(proof.ok && proof.value.report).toMatchObject({ correct: true, findings: [] });
  });

  it('is right whichever way it is read, and can be annotated the other way again', async () => {
    const { source } = await annotate(bytes, { marksAt: 'note' });
    const asFoot = await computeProof(
      { bytes: source!.bytes, fileName: 'part.xml' },
      { marksAt: 'foot' },
      clock(),
    );
    expect(asFoot.ok && asFoot.value.report.correct).toBe(true);
    const again = await annotate(source!.bytes, {});
    const direct = await annotate(bytes, {});
    expect(Buffer.from(again.source!.bytes).equals(Buffer.from(direct.source!.bytes))).toBe(true);
  });
});
