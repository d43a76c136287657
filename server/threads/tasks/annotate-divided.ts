import { checkDrawingLimits, type SecondShare, withSecondIds } from '../../../engine/index.ts';
import type { Annotator } from '../../../render/index.ts';
import type { AnnotateChoice } from '../../api/requests/options.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import type { AnnotatedHarps } from './annotate-harps.ts';
import { markSource, tuneFormatFor } from './annotate-score.ts';
import { type Annotated, engravingFor, type Target } from './annotated.ts';
import { type DividedScore, divideScore } from './divide-score.ts';
import { type PlannedScore, planShare } from './plan-score.ts';
import { writeSourceFile } from './source-file.ts';
import type { StageClock } from './stage-clock.ts';

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
  const drawn = target.kind === 'pdf' || target.kind === 'svg' ? target.kind : null;
  if (drawn !== null) {
    const drawable = checkDrawingLimits(whole);
    if (!drawable.ok) return drawable;
    clock.begin('engrave', whole.bars.length);
  }
  const harps: Annotated[] = [];
  for (const player of players) {
    const harp = await annotatePlayer(player, file, choice, target, annotator);
    if (!harp.ok) return harp;
    harps.push(harp.value);
  }
  const together = drawn === null ? null : await drawForTwo(players, choice, drawn, annotator, clock);
  if (together !== null && !together.ok) return together;
  const score = together === null ? null : { name: 'both players', ...together.value };
  const names = ['first player', 'second player'];
  return {
    ok: true,
    value: { title: whole.titles.title, harps, names, together: score, source: null, least },
  };
};

const annotatePlayer = async (
  player: PlannedScore,
  file: ScoreFile,
  choice: AnnotateChoice,
  target: Target,
  annotator: Pick<Annotator, 'engrave'>,
): Promise<Outcome<Annotated>> => {
  const { score, plan } = player;
  const form = target.kind === 'source' ? 'plan' : target.kind;
  const annotation = await annotator.engrave(score, plan, engravingFor(choice, player), form);
  if (!annotation.ok) return annotation;
  if (target.kind !== 'source')
    return { ok: true, value: { annotation: annotation.value, score, source: null, others: [] } };
  const marked = markSource(player, choice);
  if (!marked.ok) return marked;
  const written = writeSourceFile(score, file.bytes, marked.value.bytes, target.kinds);
  if (!written.ok) return written;
  const remarks = [...annotation.value.remarks, ...marked.value.remarks];
  return {
    ok: true,
    value: { annotation: { ...annotation.value, remarks }, score, source: written.value, others: [] },
  };
};

/** The score of both: the second player's notes are known there by ids of their own, and planned by these. */
const drawForTwo = async (
  [first, second]: DividedScore['players'],
  choice: AnnotateChoice,
  form: 'pdf' | 'svg',
  annotator: Pick<Annotator, 'engraveTogether'>,
  clock: StageClock,
): ReturnType<Annotator['engraveTogether']> => {
  const below = planShare(withSecondIds(second.score), choice, clock);
  if (!below.ok) throw new Error('a part that was planned cannot be planned again');
  return annotator.engraveTogether(
    [first, below.value].map((player) => ({
      score: player.score,
      plan: player.plan,
      choice: { ...engravingFor(choice, player), edition: 'part' as const },
    })),
    form,
  );
};
