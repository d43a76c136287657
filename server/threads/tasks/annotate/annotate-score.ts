import { checkDrawingLimits, type Respelling, type TuneFormat } from '../../../../engine/index.ts';
import {
  type AnnotatedSource,
  type Annotator,
  annotateSource,
  completeEngraving,
  fileRemarks,
  markingsFor,
  nameStrings,
  playedNotes,
} from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import type { Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { type PlannedScore, planScore } from '../plan-score.ts';
import { writeSourceFile } from '../source-file.ts';
import type { StageClock } from '../stage-clock.ts';
import { annotateMovements, countMovements } from './annotate-movements.ts';
import { type Annotated, engravingFor, type Target } from './annotated.ts';

/**
 * Annotates a score: reads, plans, and draws pages or writes markings into the user's own file.
 *
 * A PDF of a file with several movements has all of them, unless one is named.
 *
 * @returns the annotated score, or the problem that keeps it from being made
 */
export const annotateScore = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  target: Target,
  annotator: Pick<Annotator, 'engrave' | 'engraveMovements'>,
  clock: StageClock,
): Promise<Outcome<Annotated>> => {
  const planned = await planScore(file, choice, clock, tuneFormatFor(target));
  if (!planned.ok) return planned;
  const { score, plan } = planned.value;
  if (target.kind === 'pdf' && choice.movement === undefined && countMovements(score) > 1)
    return annotateMovements(file, choice, planned.value, annotator, clock);
  const drawn = target.kind === 'pdf' || target.kind === 'svg';
  if (drawn) {
    const drawable = checkDrawingLimits(score);
    if (!drawable.ok) return drawable;
    clock.begin('engrave', score.bars.length);
  }
  const annotation = await annotator.engrave(
    score,
    plan,
    engravingFor(choice, planned.value),
    drawn ? target.kind : 'plan',
  );
  if (!annotation.ok) return annotation;
  if (target.kind !== 'source') {
    return { ok: true, value: { annotation: annotation.value, score, source: null, others: [] } };
  }
  clock.begin('write', score.bars.length);
  const marked = markSource(planned.value, choice);
  if (!marked.ok) return marked;
  const written = writeSourceFile(score, file.bytes, marked.value.bytes, target.kinds);
  if (!written.ok) return written;
  const told = { ...annotation.value, remarks: [...annotation.value.remarks, ...marked.value.remarks] };
  return { ok: true, value: { annotation: told, score, source: written.value, others: [] } };
};

/** A tune in ABC comes back as MEI, unless MusicXML alone will do. */
export const tuneFormatFor = (target: Target): TuneFormat =>
  target.kind === 'source' && !target.kinds.includes('mei') ? 'musicxml' : 'mei';

/**
 * Writes the markings of a plan into the text of its score. Respelled notes are written as such where the user left the
 * spelling free, or chose the string.
 */
export const markSource = (planned: PlannedScore, choice: AnnotateChoice): Outcome<AnnotatedSource> => {
  const { score, plan, decisions } = planned;
  const engraving = completeEngraving(engravingFor(choice, planned), plan.kind);
  const { respellings, omitted } = playedNotes(plan);
  const isWritten = ({ note }: Respelling): boolean =>
    choice.spelling === 'free' || decisions.placed.respelled.has(note);
  const marked = annotateSource(score, markingsFor(score, plan, engraving), {
    others: engraving.fileMarkings ? 'keep' : 'replace',
    placement: engraving.placement,
    marksAt: engraving.marksAt,
    language: engraving.language,
    settings: engraving.fileSettings,
    respellings: respellings.filter(isWritten),
    // Names in files are English: see `fileRemarks`.
    stringNames: nameStrings(
      score,
      respellings.filter((each) => !isWritten(each)),
      { ...engraving, naming: 'english' },
    ),
    omitted,
    decisions: decisions.decisions,
  });
  if (!marked.ok) return marked;
  const remarks = [...marked.value.remarks, ...fileRemarks(engraving)];
  return { ok: true, value: { ...marked.value, remarks } };
};
