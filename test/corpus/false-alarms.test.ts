import { describe, expect, it } from 'vitest';
import type { Position } from '../../engine/harp/setting.ts';
import type { Letter } from '../../engine/music/pitch.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { DEFAULT_PROOF_OPTIONS, proofreadScore } from '../../engine/proof/proof.ts';
import { openScore } from '../../engine/score/open.ts';
import { nameChangeIn } from '../../engine/score/words/marking-names.ts';
import type { Naming } from '../../engine/score/words/pedal-names.ts';
import { completeEngraving, type EngravingChoice } from '../../render/engraving-options.ts';
import { chooseMarkings } from '../../render/markings/markings.ts';
import { annotateSource } from '../../render/source/annotate-source.ts';
import { isThorough } from '../thorough.ts';
import { type HarpScore, hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

const EVERYWHERE = { systemStart: true, pageStart: true, afterRestBars: 1, keyChangeLetters: 1 } as const;
const NOWHERE = {
  movements: false,
  rehearsalMarks: false,
  glissandi: false,
  keyChangeLetters: null,
  threeChanges: false,
  afterRestBars: null,
} as const;

/** Ways to annotate that say the whole plan: full settings alone do not. */
const WAYS: readonly (readonly [EngravingChoice, Naming])[] = [
  [{ density: 'changes', marksAt: 'note' }, 'english'],
  [{ fileSettings: 'both', settings: EVERYWHERE }, 'german'],
  [{ settings: NOWHERE }, 'fixed-do'],
];

const SIGNS: Readonly<Record<string, Position>> = { '♭': -1, '♮': 0, '♯': 1 };

/** The words of our markings in another naming. */
const inNaming = (text: string, naming: Naming): string =>
  text.replace(/([A-G])([♭♮♯])/gu, (_, letter: Letter, sign: string) =>
    nameChangeIn(naming, letter, SIGNS[sign]!),
  );

const alarmsOf = (
  { file, part }: HarpScore,
  ways: readonly (readonly [EngravingChoice, Naming])[],
): readonly string[] => {
  const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
  if (!opened.ok) throw new Error(file);
  const score = opened.value;
  const plan = planPedals({ ...score, markings: [] });
  if (!plan.summary.playable) return [];
  return ways.flatMap(([choice, naming]) => {
    const engraving = completeEngraving(choice);
    const { marksAt, fileSettings: settings } = engraving;
    const written = annotateSource(score, chooseMarkings(score, plan, engraving), {
      others: 'replace',
      marksAt,
      settings,
    });
    if (!written.ok) throw new Error(file);
    const text = inNaming(written.value.text, naming).replace(/encoding="[^"]*"/u, 'encoding="UTF-8"');
    // The part as a user would name it.
    const again = openScore(new TextEncoder().encode(text), { part: score.harp.partIds[0]! });
    if (!again.ok) throw new Error(file);
    const { findings } = proofreadScore(again.value, { ...DEFAULT_PROOF_OPTIONS, marksAt }, () => plan);
    return findings.map(({ barNumber, sentence }) => `${file} ${naming} bar ${barNumber}: ${sentence}`);
  });
};

describe.skipIf(!hasScores)('real scores that are annotated', () => {
  // Each score in one of the ways in turn, so that each way meets four or five of them.
  const cases = SMALLER_HARP_SCORES.map((score, i) => ({
    ...score,
    ways: isThorough ? WAYS : [WAYS[i % WAYS.length]!],
    namings: (isThorough ? WAYS : [WAYS[i % WAYS.length]!]).map(([, naming]) => naming).join(', '),
  }));
  it.each(cases)(
    'give no false alarm: $file, named in $namings',
    { timeout: 300_000 },
    ({ ways, ...score }) => {
      expect(alarmsOf(score, ways)).toEqual([]);
    },
  );
});
