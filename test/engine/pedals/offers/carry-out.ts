import { expect } from 'vitest';
import { nameNotes } from '../../../../engine/decisions/notes-at.ts';
import { placeDecisions } from '../../../../engine/decisions/place-decisions.ts';
import type { Plan } from '../../../../engine/pedals/model.ts';
import { decisionsOfFix } from '../../../../engine/pedals/offers/fix-decisions.ts';
import type { OfferedFix } from '../../../../engine/pedals/offers/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../../engine/pedals/options.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import { delayNotes } from '../../../../engine/score/delay-notes.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { slowDown } from '../../../../engine/score/slow-down.ts';
import type { NoteChange } from '../../../../engine/sounding/changed-needs.ts';

/** The plan once a fix is decided on, as a user sends it back: by places. */
export const planWithFix = (
  score: Score,
  fix: OfferedFix,
  options: PlanOptions = DEFAULT_PLAN_OPTIONS,
): Plan => {
  const placed = placeDecisions(score, decisionsOfFix(score, fix, nameNotes(score)));
  expect(placed.unplaced).toEqual([]);
  const { respelled, omitted, delays, tempos } = placed;
  return planPedals(delayNotes(slowDown(score, tempos), delays), { ...options, respelled, omitted });
};

export const changesOf = (fix: OfferedFix): readonly NoteChange[] => ('changes' in fix ? fix.changes : []);
