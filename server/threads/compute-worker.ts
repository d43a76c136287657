import { type ArchiveEntry, listTunes, unpackEntry, unpackScore } from '../../engine/index.ts';
import type { ClassPiece } from '../../render/index.ts';
import { replyClassSet, replyHandout, replyJson, replyMarked, replyProof } from '../http/reply.ts';
import type { Outcome } from '../service-problem.ts';
import type { ComputeJob, Reply, WorkerMessage } from './job.ts';
import { computeDivision } from './tasks/annotate/divide-score.ts';
import { compareScore } from './tasks/compare-score.ts';
import { computeGlissandi, computePlan, computeProof } from './tasks/compute.ts';
import { findFixes } from './tasks/find-fixes.ts';
import { markAttempt } from './tasks/mark-attempt.ts';
import { exploreSetting, exploreSettingAtBar } from './tasks/settings/explore-setting.ts';
import { type StageClock, startStageClock } from './tasks/stage-clock.ts';
import { tableOfTunes } from './tasks/tunes/table-of-tunes.ts';
import { transferBody } from './transfer-body.ts';

const asJson = (computed: Outcome<unknown>): Outcome<Reply> =>
  computed.ok ? { ok: true, value: replyJson(computed.value) } : computed;

const unpack = (bytes: Uint8Array, entry: ArchiveEntry): Outcome<Reply> => {
  const unpacked = unpackEntry(bytes, entry);
  return unpacked.ok ? { ok: true, value: { headers: {}, body: unpacked.value } } : unpacked;
};

const listBook = (bytes: Uint8Array): Outcome<Reply> => {
  const listed = listTunes(bytes);
  return listed.ok ? { ok: true, value: replyJson(listed.value ?? []) } : listed;
};

const unpackWhole = (bytes: Uint8Array): Outcome<Reply> => {
  const file = unpackScore(bytes);
  // A copy: the thread hands the whole buffer over.
  return file.ok ? { ok: true, value: { headers: {}, body: file.value.bytes.slice() } } : file;
};

const compute = async (job: ComputeJob, clock: StageClock): Promise<Outcome<Reply>> => {
  switch (job.kind) {
    case 'plan':
      return asJson(await computePlan(job, job.choice, clock));
    case 'proof': {
      const proofread = await computeProof(job, job.choice, clock, job.format);
      return proofread.ok ? replyProof(proofread.value, job.format) : proofread;
    }
    case 'mark': {
      const marked = await markAttempt(job, job.choice, clock, job.format.kind);
      return marked.ok ? replyMarked(marked.value, job.format) : marked;
    }
    case 'compare':
      return asJson(await compareScore(job, job.choice, clock));
    case 'tunes':
      return tableOfTunes(job, clock);
    case 'fixes':
      return asJson(await findFixes(job, job.choice, clock));
    case 'setting-at-bar':
      return asJson(await exploreSettingAtBar(job, job.choice, clock));
    case 'setting':
      return asJson(exploreSetting(job.choice));
    case 'divide':
      return asJson(await computeDivision(job, job.choice, clock));
    case 'glissandi':
      return asJson(computeGlissandi(job.choice));
    case 'handout':
      return drawOne(job, clock);
    case 'bind-set':
      return bindSet(job, clock);
    case 'unpack-score':
      return unpackWhole(job.bytes);
    case 'list-tunes':
      return listBook(job.bytes);
    case 'unpack':
      return unpack(job.bytes, job.entry);
  }
};

/** The renderer is loaded when it is first wanted: planning does without it. */
const drawOne = async (
  job: Extract<ComputeJob, { kind: 'handout' }>,
  clock: StageClock,
): Promise<Outcome<Reply>> => {
  clock.begin('engrave', null);
  const { drawHandout } = await import('../../render/index.ts');
  const drawn = await drawHandout(job.name, job.choice);
  return drawn.ok ? replyHandout(drawn.value, job) : drawn;
};

/** @returns the pieces as one PDF, or `limit-exceeded` */
const bindSet = async (
  { pieces, refused, choice }: Extract<ComputeJob, { kind: 'bind-set' }>,
  clock: StageClock,
): Promise<Outcome<Reply>> => {
  clock.begin('write', null);
  const { bindClassSet } = await import('../../render/index.ts');
  const drawn = pieces.map((bytes): ClassPiece => JSON.parse(new TextDecoder().decode(bytes)));
  const bound = bindClassSet(drawn, refused, choice);
  return bound.ok ? replyClassSet(bound.value, pieces.length) : bound;
};

/** The job of threads that have no layout engine. */
export const work = async ({ job, port }: WorkerMessage<ComputeJob>): Promise<unknown> => {
  const clock = startStageClock((progress) => port?.postMessage(progress));
  try {
    const outcome = await compute(job, clock);
    return transferBody({ outcome, seconds: clock.stop() });
  } finally {
    port?.close();
  }
};
