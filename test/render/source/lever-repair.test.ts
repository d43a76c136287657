import { describe, expect, it } from 'vitest';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import { proofreadLevers } from '../../../engine/proof/levers/proofread-levers.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScoreFile } from '../../../engine/score/open-file.ts';
import { drawFrom } from '../../engine/proof/plant-faults.ts';
import { annotatedForLevers } from '../../lever-alarms.ts';
import { leverRepairFailures, repairInFile, writeEdits } from '../../lever-mutations.ts';
import { plantLeverFaults } from '../../spoilt-levers.ts';
import { isThorough } from '../../thorough.ts';

const TUNE = `X:1
T:The Lantern Stair
M:4/4
L:1/4
Q:1/4=66
K:Eb
E G B e | =e2 z2 | _e d c B | ^F G z2 | F E D E | =A B c2 | z2 _A G |
B d f e | ^c d z2 | =c B A G | =E F G2 | z2 _E2 | ^f g z2 | =f e d c | B A G2 | E4 |]
`;

/** Times that the tune is spoilt: with TRINGLE_THOROUGH=1 many more. */
const RUNS = isThorough ? 400 : 4;

const annotated = async (tuneFormat: 'musicxml' | 'mei' = 'musicxml'): Promise<Score> => {
  const opened = await openScoreFile(new TextEncoder().encode(TUNE), { tuneFormat });
  if (!opened.ok) throw new Error(opened.problem.code);
  return annotatedForLevers(opened.value)!;
};

const proofOf = (score: Score) => proofreadLevers(score, DEFAULT_LEVER_OPTIONS);

const withText = async (tuneFormat: 'musicxml' | 'mei', from: string, to: string): Promise<Score> => {
  const { source } = await annotated(tuneFormat);
  expect(source.text).toContain(from);
  const opened = await openScoreFile(new TextEncoder().encode(source.text.replace(from, to)), {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

describe('a tune with its lever plan in the file', () => {
  it.each(['musicxml', 'mei'] as const)('is read back without a finding from %s', async (format) => {
    const score = await annotated(format);
    expect(score.leverWords.length).toBeGreaterThan(6);
    expect(proofOf(score).findings).toEqual([]);
  });

  it.each(['musicxml', 'mei'] as const)(
    'has a wrong name corrected where it stands, in %s',
    async (format) => {
      const score = await withText(format, 'C♯5<', 'C♯4<');
      const { findings, repair } = proofOf(score);
      expect(findings.filter(({ severity }) => severity === 'stop')).not.toEqual([]);
      expect(repair.edits.flatMap(({ fixes }) => fixes.map(({ kind }) => kind))).toEqual(['rename']);
      const repaired = repairInFile(score);
      expect(repaired.source.text).toBe((await annotated(format)).source.text);
    },
  );

  it('whose table is spelled out in rows of letters has the string that they leave out added', async () => {
    const table = 'Tuning E♭ major&#10;Levers up: F♯4, A♮4<';
    const whole = await withText('musicxml', table, 'D C B♭ / E♭ F G A♭, F♯4, A♮4<');
    expect(proofOf(whole).findings).toEqual([]);
    const repaired = repairInFile(await withText('musicxml', table, 'D C B♭ / E♭ F G A♭, A♮4<'));
    expect(repaired.leverWords[0]!.text).toBe('D C B♭ / E♭ F G A♭, A♮4, F♯4');
    expect(proofOf(repaired).findings).toEqual([]);
  });

  it('has a change that is missing put in, and nothing else changed', async () => {
    const score = await withText('musicxml', '>C♯5<', '><');
    const repaired = repairInFile(score);
    expect(proofOf(repaired).correct).toBe(true);
    expect(
      repaired.source.text.replace(/<direction placement="below" id="levers-r1">.*?<\/direction>/su, ''),
    ).toBe(score.source.text);
  });

  it('is repaired by no more edits than faults were planted', { timeout: 120_000 }, async () => {
    const seeds = Array.from({ length: RUNS }, (_, seed) => seed);
    const failures = leverRepairFailures(await annotated(), seeds, 'tune');
    // Of 400 four take one edit more: a name that is off by an octave or a letter stands where another is missing.
    expect(failures.length, failures.join('\n')).toBeLessThanOrEqual(RUNS / 100);
  });
});

/** Every choice among some edits; where tests are not thorough, each alone and all but one. */
const someOf = (edits: readonly number[]): readonly (readonly number[])[] => {
  if (!isThorough) return edits.flatMap((one) => [[one], edits.filter((each) => each !== one)]);
  return Array.from({ length: 2 ** edits.length }, (_, some) =>
    edits.filter((_, i) => (some & (1 << i)) !== 0),
  );
};

describe('the edits of a repair of lever markings', () => {
  /** What stops the player, by its place. */
  const stopsOf = (score: Score): readonly string[] =>
    proofOf(score)
      .findings.filter(({ severity }) => severity === 'stop')
      .map(({ code, bar, beat }) => `${code} ${bar} ${rationalKey(beat)}`);

  it('leave no new fault, whichever of them are made, each with those that it depends on', async () => {
    const whole = await annotated();
    for (const seed of [58, 149, 215]) {
      const { score } = plantLeverFaults(whole, 3, drawFrom(seed));
      const { edits } = proofOf(score).repair;
      const before = new Set(stopsOf(score));
      for (const chosen of someOf([...edits.keys()])) {
        const added = stopsOf(writeEdits(score, edits, chosen)).filter((stop) => !before.has(stop));
        expect(added, `seed ${seed}, edits ${chosen}`).toEqual([]);
      }
    }
  });
});
