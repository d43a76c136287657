import {
  chooseDecisions,
  chooseProfile,
  HARPS,
  type HarpName,
  type HarpProfile,
  listTunes,
  openScoreFile,
  problemMessage,
  readLeverSigns,
  type Score,
  type TuneSummary,
} from '../../../../engine/index.ts';
import { withoutOwnMarkings } from '../../../../render/pure.ts';
import { TUNE_HARP } from '../book/lever-harps.ts';
import { withoutLost } from '../decisions/decision-edits.ts';
import type { EngineReport, EngineRequest, OpenedLevers } from './engine-messages.ts';
import { createPartPlanner } from './part-planner.ts';
import type { PedalNeed } from './planned-part.ts';
import { readPart } from './read-part.ts';

/** The score that was opened last: it is planned again and again. */
let planner: ReturnType<typeof createPartPlanner> | null = null;

/** Plans it otherwise without forgetting what the user's own plan is made from; made when it is first asked for. */
let otherPlanner: (() => ReturnType<typeof createPartPlanner>) | null = null;

/** The needs that the page was sent last. */
let lastNeeds: readonly PedalNeed[] = [];

const post = (report: EngineReport): void => postMessage(report);

const nameOf = (profile: HarpProfile): HarpName =>
  (Object.keys(HARPS) as HarpName[]).find((name) => HARPS[name] === profile)!;

/** The tunes of a file in ABC; none of other files. */
const tunesOf = (bytes: Uint8Array): readonly TuneSummary[] => {
  const listed = listTunes(bytes);
  return listed.ok ? (listed.value ?? []) : [];
};

/** The harp that a part is for: as the user or the part names it; a tune that names none is for a lever harp. */
const harpFor = (
  score: Score,
  instrument: HarpName | null,
  isTune: boolean,
): Pick<OpenedLevers, 'harp' | 'isHarpOfTunes'> => {
  const { profile, remark } = chooseProfile(score);
  const isHarpOfTunes = isTune && instrument === null && remark === null;
  return { harp: instrument ?? (isHarpOfTunes ? TUNE_HARP : nameOf(profile)), isHarpOfTunes };
};

const open = async ({
  request,
  bytes,
  fileName,
  part,
  tune,
  instrument,
  kept,
  choices,
}: Extract<EngineRequest, { kind: 'open' }>): Promise<void> => {
  [planner, otherPlanner] = [null, null];
  post({ request, kind: 'stage', stage: 'reading' });
  const read = await openScoreFile(bytes, {
    fileName,
    ...(part === null ? {} : { part }),
    ...(tune === null ? {} : { tune }),
  });
  // Another score may have been opened while a parser was loaded.
  if (request !== latest) return;
  if (!read.ok) {
    const { problem } = read;
    if (problem.code === 'choose-tune') {
      post({ request, kind: 'tunes', tunes: problem.tunes });
      return;
    }
    const parts =
      problem.code === 'harp-not-found' || problem.code === 'no-notes'
        ? problem.parts.filter(({ notes }) => notes > 0)
        : [];
    const silentHarp = problem.code === 'no-notes' ? problem.part : null;
    if (parts.length > 0) post({ request, kind: 'parts', parts, silentHarp });
    else post({ request, kind: 'refused', sentence: problemMessage(problem) });
    return;
  }
  post({ request, kind: 'stage', stage: 'planning' });
  // The server plans the same way: by the notes, whatever an earlier annotation left in the file.
  const written = withoutOwnMarkings(read.value);
  const tunes = tunesOf(bytes);
  const { harp, isHarpOfTunes } = harpFor(written, instrument, tunes.length > 0);
  const profile: HarpProfile = HARPS[harp];
  const score = profile.kind === 'lever' ? readLeverSigns(written) : written;
  const { origin, decisions, placed, remarks } = chooseDecisions(score, kept, true);
  if (profile.kind === 'lever') {
    const { unplaced } = placed;
    const lost = unplaced.map(({ sentence }) => sentence);
    const inForce = withoutLost(decisions, unplaced);
    const opened = {
      part: readPart(score, [], read.value.leverWords.length + read.value.smallDiamonds.length),
      harp,
      isHarpOfTunes,
      decisions: inForce,
      origin,
      tunes,
      lost,
    };
    post({ request, kind: 'opened-levers', opened });
    return;
  }
  planner = createPartPlanner(score, profile);
  otherPlanner = once(() => createPartPlanner(score, profile));
  const planning = planner(decisions, choices);
  lastNeeds = planning.needs;
  post({
    request,
    kind: 'opened',
    opened: {
      part: readPart(score, remarks, read.value.markings.length),
      planning,
      harp,
      decisions,
      origin,
      tunes,
    },
  });
};

const replan = ({ request, decisions, choices }: Extract<EngineRequest, { kind: 'replan' }>): void => {
  if (planner === null) throw new Error('no score is open that could be planned anew');
  const planning = planner(decisions, choices);
  // Needs are many, and a move that was dragged changes none of them.
  const areSame = planning.needs === lastNeeds;
  lastNeeds = planning.needs;
  post({ request, kind: 'replanned', planning: areSame ? { ...planning, needs: null } : planning });
};

const once = <T>(make: () => T): (() => T) => {
  let made: T | null = null;
  return () => {
    made ??= make();
    return made;
  };
};

const planOther = ({ request, decisions, choices }: Extract<EngineRequest, { kind: 'plan-other' }>): void => {
  // Another score may be being opened: its page asks again.
  if (otherPlanner === null) return;
  post({ request, kind: 'planned-other', plan: otherPlanner()(decisions, choices).plan });
};

/** What the page asked for last. */
let latest = 0;

addEventListener('message', ({ data }: MessageEvent<EngineRequest>) => {
  if (data.kind === 'plan-other') return planOther(data);
  latest = data.request;
  // What goes wrong is an error of the thread, as it is for what is done at once: the page starts another.
  if (data.kind === 'open') open(data).catch((bug: unknown) => setTimeout(() => throwBug(bug)));
  else replan(data);
});

const throwBug = (bug: unknown): never => {
  throw bug;
};
