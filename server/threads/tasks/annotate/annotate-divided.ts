import { type SecondShare, withSecondIds, withSecondIdsInPlan } from '../../../../engine/index.ts';
import type { Annotation, Annotator } from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import type { Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import type { PlannedScore } from '../plan-score.ts';
import { writeSourceFile } from '../source-file.ts';
import type { StageClock } from '../stage-clock.ts';
import type { AnnotatedHarps } from './annotate-harps.ts';
import { markSource, tuneFormatFor } from './annotate-score.ts';
import type { Annotated, Target } from './annotated.ts';
import { type DividedScore, divideScore } from './divide-score.ts';
import { drawnForm, engraveParts, engraveTogether } from './engrave-parts.ts';

/** Divides a part between two players: an annotated part for each, and where pages are wanted the score of both. */
export const annotateDivided = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  target: Target,
  annotator: Pick<Annotator, 'engrave' | 'engraveTogether'>,
  clock: StageClock,
): Promise<Outcome<AnnotatedHarps & { readonly least: SecondShare }>> => {
  const done = await divideScore(file, choice, clock, tuneFormatFor(target));
  if (!done.ok) return done;
  const { whole, least, players } = done.value;
  const engraved = await engraveParts(players, choice, target, annotator, clock);
  if (!engraved.ok) return engraved;
  const harps: Annotated[] = [];
  for (const [i, annotation] of engraved.value.entries()) {
    const harp = withOwnFile(players[i]!, annotation, file, choice, target);
    if (!harp.ok) return harp;
    harps.push(harp.value);
  }
  const form = drawnForm(target);
  const together = form === null ? null : await engraveTogether(asOneScore(players), choice, form, annotator);
  if (together !== null && !together.ok) return together;
  const score = together === null ? null : { name: 'both players', ...together.value };
  const names = ['first player', 'second player'];
  return {
    ok: true,
    value: { title: whole.titles.title, harps, names, together: score, source: null, least },
  };
};

/** The part of a player, with a file of its own where that is wanted: the players share the staves. */
const withOwnFile = (
  player: PlannedScore,
  annotation: Annotation,
  file: ScoreFile,
  choice: AnnotateChoice,
  target: Target,
): Outcome<Annotated> => {
  const { score } = player;
  if (target.kind !== 'source') return { ok: true, value: { annotation, score, source: null, others: [] } };
  const marked = markSource(player, choice);
  if (!marked.ok) return marked;
  const written = writeSourceFile(score, file.bytes, marked.value.bytes, target.kinds);
  if (!written.ok) return written;
  const remarks = [...annotation.remarks, ...marked.value.remarks];
  return {
    ok: true,
    value: { annotation: { ...annotation, remarks }, score, source: written.value, others: [] },
  };
};

/** Both players as the score of both has them: the second's notes are known there by ids of their own. */
const asOneScore = ([first, second]: DividedScore['players']): readonly PlannedScore[] => {
  const { score, plan } = second;
  if (plan.kind !== 'pedal') throw new Error('a part for the lever harp is not divided');
  return [
    first,
    {
      ...second,
      score: withSecondIds(score),
      plan: { kind: 'pedal', plan: withSecondIdsInPlan(plan.plan) },
    },
  ];
};
