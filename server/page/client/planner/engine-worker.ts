import {
  chooseDecisions,
  chooseProfile,
  describeFollowed,
  followBars,
  followDecisions,
  HARPS,
  type HarpName,
  type HarpProfile,
  type LeverHarpProfile,
  lazy,
  listTunes,
  openScoreFile,
  type PedalHarpProfile,
  type Problem,
  problemMessage,
  type Remark,
  readLeverSigns,
  type Score,
  type TuneSummary,
} from '../../../../engine/index.ts';
import { completeEngraving, movesToldElsewhere, withoutOwnMarkings } from '../../../../render/pure.ts';
import { type ComparedReport, describeChanges } from '../../../reports/plan-changes.ts';
import { namesIn, tellBars } from '../../../reports/report-notes.ts';
import { reportPedals } from '../../../reports/report-pedals.ts';
import type { EngineReport, EngineRequest, OpenedLevers, Renewed } from './engine-messages.ts';
import { createLeverPlanner } from './lever-planner.ts';
import { createPartPlanner } from './part-planner.ts';
import { cutIntoPieces } from './pieces.ts';
import type { PedalNeed } from './planned-part.ts';
import { readPart } from './read-part.ts';

/** What plans the score that was opened last, again and again. */
interface OpenPart<Planner> {
  readonly own: Planner;
  /** Plans it otherwise without forgetting what the user's own plan is made from; made when it is first asked for. */
  readonly other: () => Planner;
}

/** For the harp that the score is for; null for the other. */
let pedals: OpenPart<ReturnType<typeof createPartPlanner>> | null = null;
let levers: OpenPart<ReturnType<typeof createLeverPlanner>> | null = null;

/** The needs that the page was sent last. */
let lastNeeds: readonly PedalNeed[] = [];

/** Reports the user's own plan as it was made last; null where none was. */
let reportLast: (() => ComparedReport) | null = null;

/** The score that the page shows, and saves of it that may have taken its place since, by the requests that opened them. */
const opened = new Map<number, Score>();

const post = (report: EngineReport): void => {
  for (const piece of cutIntoPieces(report)) postMessage(piece);
};

const nameOf = (profile: HarpProfile): HarpName =>
  (Object.keys(HARPS) as HarpName[]).find((name) => HARPS[name] === profile)!;

/** The tunes of a file in ABC; none of other files. */
const tunesOf = (bytes: Uint8Array): readonly TuneSummary[] => {
  const listed = listTunes(bytes);
  return listed.ok ? (listed.value ?? []) : [];
};

/** The harp that a part is for: as the user or the part names it. That of tunes is told where the book is listed. */
const harpFor = (
  score: Score,
  instrument: HarpName | null,
): Pick<OpenedLevers, 'harp' | 'isHarpOfTunes'> & { readonly remarks: readonly Remark[] } => {
  const { profile, remark, isHarpOfTunes } = chooseProfile(score);
  if (instrument !== null) return { harp: instrument, isHarpOfTunes: false, remarks: [] };
  return { harp: nameOf(profile), isHarpOfTunes, remarks: remark === null || isHarpOfTunes ? [] : [remark] };
};

const tellUnread = (request: number, problem: Problem): void => {
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
};

type OpenRequest = Extract<EngineRequest, { kind: 'open' }>;

const open = async (asked: OpenRequest): Promise<void> => {
  const { request, bytes, fileName, part, tune, movement } = asked;
  if (asked.renews === null) {
    [pedals, levers, reportLast] = [null, null, null];
    opened.clear();
  }
  post({ request, kind: 'stage', stage: 'reading' });
  const read = await openScoreFile(bytes, {
    fileName,
    ...(part === null ? {} : { part }),
    ...(tune === null ? {} : { tune }),
    ...(movement === null ? {} : { movement }),
  });
  // Another score may have been opened while a parser was loaded.
  if (request !== latestOpen) return;
  if (!read.ok) return tellUnread(request, read.problem);
  post({ request, kind: 'stage', stage: 'planning' });
  planOpened(asked, read.value);
};

/** The decisions that the page kept, gone along with the bars of the score that it shows into the one that takes its place. */
const followKept = ({ kept, renews }: OpenRequest, score: Score) => {
  const shown = renews === null ? undefined : opened.get(renews);
  if (shown === undefined) return { followed: kept, bars: null, told: [] };
  for (const request of opened.keys()) if (request < renews!) opened.delete(request);
  const bars = followBars(shown, score);
  if (kept === null) return { followed: null, bars, told: [] };
  const followed = followDecisions(kept, bars);
  const told = describeFollowed(kept, followed, shown, score);
  return { followed: followed.decisions, bars, told };
};

/** Plans a score for the first time, for the harp that it is for. @param whole with tringle's own markings */
const planOpened = (asked: OpenRequest, whole: Score): void => {
  const { request, bytes, instrument, choices, leverChoices } = asked;
  // The server plans the same way: by the notes, whatever an earlier annotation left in the file.
  const written = withoutOwnMarkings(whole);
  const tunes = tunesOf(bytes);
  const { harp, isHarpOfTunes, remarks: ofHarp } = harpFor(written, instrument);
  const profile: HarpProfile = HARPS[harp];
  const score = profile.kind === 'lever' ? readLeverSigns(written) : written;
  const { followed, bars, told } = followKept(asked, score);
  opened.set(request, score);
  const { origin, decisions, remarks: ofDecisions } = chooseDecisions(score, followed, true);
  const remarks = [...ofHarp, ...ofDecisions];
  const facts = { harp, decisions, origin, tunes };
  const before = reportLast?.() ?? null;
  const renewed = (): Renewed => ({
    changes: before === null ? [] : [...told, ...describeChanges(before, reportLast!(), bars)],
    bars,
  });
  if (profile.kind === 'lever') {
    [pedals, levers] = [null, openLevers(score, profile)];
    const part = readPart(score, remarks, whole.leverWords.length + whole.smallDiamonds.length);
    const planning = levers.own(decisions, leverChoices);
    const openedLevers = { ...facts, isHarpOfTunes, part, planning };
    post({ request, kind: 'opened-levers', opened: openedLevers, ...renewed() });
    return;
  }
  [pedals, levers] = [openPedals(score, profile), null];
  const part = readPart(score, remarks, whole.markings.length);
  const planning = pedals.own(decisions, choices);
  lastNeeds = planning.needs;
  post({ request, kind: 'opened', opened: { ...facts, part, planning }, ...renewed() });
};

const openLevers = (score: Score, profile: LeverHarpProfile): NonNullable<typeof levers> => {
  const create = () => createLeverPlanner(score, profile);
  const plan = create();
  return {
    own: (...asked) => {
      const planning = plan(...asked);
      reportLast = () => planning.report;
      return planning;
    },
    other: lazy(create),
  };
};

const openPedals = (score: Score, profile: PedalHarpProfile): NonNullable<typeof pedals> => {
  const create = () => createPartPlanner(score, profile);
  const plan = create();
  return {
    own: (...asked) => {
      const planning = plan(...asked);
      reportLast = () => {
        const elsewhere = movesToldElsewhere(score, planning.plan, completeEngraving({}));
        return reportPedals(planning.plan, elsewhere, tellBars(score), namesIn(score));
      };
      return planning;
    },
    other: lazy(create),
  };
};

const replan = (
  { request, decisions, choices }: EngineRequest & { readonly kind: 'replan' | 'plan-other' },
  { own }: NonNullable<typeof pedals>,
): void => {
  const planning = own(decisions, choices);
  // Needs are many, and a move that was dragged changes none of them.
  const areSame = planning.needs === lastNeeds;
  lastNeeds = planning.needs;
  post({ request, kind: 'replanned', planning: areSame ? { ...planning, needs: null } : planning });
};

/** The score that the page asked to be opened last. */
let latestOpen = 0;

const answer = (asked: EngineRequest): void => {
  const { request } = asked;
  switch (asked.kind) {
    case 'open':
      // What goes wrong is an error of the thread, as it is for what is done at once: the page starts another.
      open(asked).catch((bug: unknown) => setTimeout(() => throwBug(bug)));
      break;
    // Another score may have taken the place of the one that the page asks about: its page asks again.
    case 'replan':
      if (pedals !== null) replan(asked, pedals);
      break;
    case 'replan-levers': {
      const planning = levers?.own(asked.decisions, asked.choices);
      if (planning !== undefined) post({ request, kind: 'replanned-levers', planning });
      break;
    }
    case 'plan-other': {
      const planned = pedals?.other()(asked.decisions, asked.choices);
      if (planned !== undefined) post({ request, kind: 'planned-other', plan: planned.plan });
      break;
    }
    case 'plan-other-levers': {
      const planned = levers?.other()(asked.decisions, asked.choices);
      if (planned !== undefined) post({ request, kind: 'planned-other-levers', report: planned.report });
      break;
    }
  }
};

addEventListener('message', ({ data }: MessageEvent<EngineRequest>) => {
  if (data.kind === 'open') latestOpen = data.request;
  answer(data);
});

const throwBug = (bug: unknown): never => {
  throw bug;
};
