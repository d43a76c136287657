import { pitchName } from '../../../engine/music/pitch.ts';
import { toNumber } from '../../../engine/music/rational.ts';
import { DEFAULT_OPTIONS, type PlanOptions } from '../../../engine/plan/options.ts';
import { planPedals } from '../../../engine/plan/plan.ts';
import { poseProblem, prepareScore } from '../../../engine/plan/prepared.ts';
import { problemMessage } from '../../../engine/problem.ts';
import type { Bar, Score } from '../../../engine/score/model.ts';
import { openScore } from '../../../engine/score/open.ts';
import { withoutOwnMarkings } from '../../../render/source/own-markings.ts';
import type { EngineReport, OpenRequest } from './engine-messages.ts';
import type { BarPlace, NotePlace, PedalNeed, PlannedPart } from './planned-part.ts';

const tell = (report: EngineReport): void => postMessage(report);

const placeBar = (bar: Bar): BarPlace => ({
  id: bar.id,
  number: bar.number,
  onsetQuarters: toNumber(bar.onset),
  durationQuarters: toNumber(bar.duration),
  beatQuarters: 4 / bar.meter.beatUnit,
});

const placeNotes = (score: Score): Map<string, NotePlace> =>
  new Map(score.notes.map(({ id, pitch, bar, onset }) => [id, { name: pitchName(pitch), bar, onset }]));

const listNeeds = (score: Score, options: PlanOptions): PedalNeed[] =>
  poseProblem(prepareScore(score, options), new Map())
    .listed.needs.map(({ letter, position, note, onset, heldUntil }) => ({
      letter,
      position,
      note: note.id,
      onsetQuarters: toNumber(onset),
      heldUntilQuarters: toNumber(heldUntil),
    }))
    .sort((a, b) => a.onsetQuarters - b.onsetQuarters);

const planPart = (score: Score, options: PlanOptions): PlannedPart => ({
  titles: score.titles,
  partName: score.harp.name,
  format: score.source.format,
  compressed: score.source.archivePath !== null,
  bars: score.bars.map(placeBar),
  notes: placeNotes(score),
  needs: listNeeds(score, options),
  plan: planPedals(score, options),
  remarks: score.remarks,
});

const open = ({ request, bytes, part }: OpenRequest): void => {
  tell({ request, kind: 'stage', stage: 'reading' });
  const opened = openScore(bytes, part === null ? {} : { part });
  if (!opened.ok) {
    const { problem } = opened;
    const choosable = problem.code === 'harp-not-found' && problem.parts.length > 0;
    if (choosable) tell({ request, kind: 'parts', parts: problem.parts });
    else tell({ request, kind: 'refused', sentence: problemMessage(problem) });
    return;
  }
  tell({ request, kind: 'stage', stage: 'planning' });
  // The server plans the same way: by the notes, whatever an earlier annotation of ours left in the file.
  tell({ request, kind: 'planned', part: planPart(withoutOwnMarkings(opened.value), DEFAULT_OPTIONS) });
};

addEventListener('message', ({ data }: MessageEvent<OpenRequest>) => open(data));
