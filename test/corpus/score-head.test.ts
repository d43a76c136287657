import { beforeAll, describe, expect, it } from 'vitest';
import { planPart } from '../../engine/plan-part.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { completeEngraving } from '../../render/engraving-options.ts';
import { prepareDocument } from '../../render/layout/document/layout-document.ts';
import { type Drawer, startDrawer } from '../../render/layout/drawer/drawer.ts';
import { headOf, type ScoreHead } from '../../render/layout/early/score-head.ts';
import { type DocumentOutline, outlineDocument } from '../../render/layout/lines/document-outline.ts';
import { ALL_STAVES } from '../../render/layout/spaces/reserve-spaces.ts';
import { playedNotes } from '../../render/pages/engrave-pages.ts';
import { oneIn } from '../thorough.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

/** Where a head ends, lines and joined rests that go on in the whole part are other. */
const NEAR_THE_END = 9;
/** The conversion closes lines of words and dynamics that run farther, where they begin. */
const MOST_OTHER = 6;

describe.skipIf(!hasScores)('the first bars of a real part', () => {
  let drawer: Drawer;
  beforeAll(async () => {
    drawer = await startDrawer();
  });

  const outlineOf = ({ leftOut, score }: ScoreHead, whole: Score): DocumentOutline => {
    const request = {
      ...{ score, harps: [score.harp], others: new Set<string>(), leftOut },
      engraving: completeEngraving({}),
      played: playedNotes(planPart(whole, {})),
      signEdits: () => [],
      cues: { cues: [], score, staves: ALL_STAVES },
      full: ALL_STAVES,
    };
    return outlineDocument(prepareDocument(request, drawer)!.write([], []))!;
  };

  it.each(oneIn(2, SMALLER_HARP_SCORES))(
    'are the same texts for the layout as in the whole part: $file',
    ({ file, part }) => {
      const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
      if (!opened.ok) throw new Error(opened.problem.code);
      const score = opened.value;
      const whole = outlineOf({ score, leftOut: [] }, score);
      const head = outlineOf(headOf(score, score.bars.length >> 1), score);
      const until = Math.max(0, head.measures.length - NEAR_THE_END);
      expect(head.opening).toBe(whole.opening);
      const other = head.measures.filter(({ text }, i) => i < until && text !== whole.measures[i]!.text);
      expect(other.length, other.map(({ text }) => text).join('\n')).toBeLessThanOrEqual(MOST_OTHER);
    },
  );
});
