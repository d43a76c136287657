import {
  type ChosenDecisions,
  chooseDecisions,
  chooseProfile,
  completeChoice,
  type DelayWords,
  decidedOptionsFor,
  decisionsOnShare,
  delayNotes,
  type HarpKind,
  type HarpPlan,
  harpOfPin,
  leverOptionsFor,
  openScoreFile,
  openWithCount,
  type ProfileChoice,
  planPart,
  type Remark,
  type Result,
  readLeverSigns,
  remarkOnAll,
  type Score,
  SHARING_CATALOGUE,
  slowDown,
  type TuneFormat,
  takeDividedShare,
  takeShare,
  tellDelays,
} from '../../../engine/index.ts';
import {
  DELAYED_IN,
  ENGRAVING_CATALOGUE,
  type Language,
  NO_FASTER_IN,
  withoutOwnMarkings,
} from '../../../render/pure.ts';
import { decisionsFor } from '../../api/requests/decisions.ts';
import { checkHarpOptions } from '../../api/requests/harp-options.ts';
import { type InstrumentChoice, profileOf } from '../../api/requests/instruments.ts';
import type { PlanChoice } from '../../api/requests/options.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { createKnownScores, scoreKey } from './known-scores.ts';
import type { StageClock } from './stage-clock.ts';

/** A score and its plan; the score's remarks tell of the decisions that were saved in its file, too. */
export interface PlannedScore {
  readonly score: Score;
  readonly plan: HarpPlan;
  readonly decisions: ChosenDecisions;
}

/** What of a file is read. */
interface FilePart {
  readonly part?: string;
  readonly tune?: string;
  readonly movement?: string;
}

/**
 * Reads the tune, the movement and the part that the user names, or the part that is found to be the harp.
 *
 * @param tuneFormat what a tune in ABC is written out as
 */
export const openFile = (
  { bytes, fileName }: ScoreFile,
  { part, tune, movement }: FilePart,
  tuneFormat: TuneFormat = 'mei',
): Promise<Result<Score>> =>
  openScoreFile(bytes, {
    fileName,
    tuneFormat,
    ...(part === undefined ? {} : { part }),
    ...(tune === undefined ? {} : { tune }),
    ...(movement === undefined ? {} : { movement }),
  });

/** The harp that the user named, or the one that the part's name, sound and markings tell. */
export const harpFor = (
  choice: { readonly instrument?: InstrumentChoice },
  score: Score,
): Pick<ProfileChoice, 'profile' | 'remark'> =>
  choice.instrument === undefined
    ? chooseProfile(score)
    : { profile: profileOf(choice.instrument), remark: null };

/** Decisions that were saved in the file for the other harp; a request may not bring such. */
const otherHarpRemarks = ({ decisions }: ChosenDecisions, harp: HarpKind): Remark[] => {
  const others = decisions.pins.filter(({ kind }) => ![harp, 'both'].includes(harpOfPin(kind))).length;
  const message = `${openWithCount(others, 'pin that is', 'pins that are')} saved in the file ${others === 1 ? 'is' : 'are'} not followed: this plan is for the other kind of harp.`;
  return others === 0 ? [] : [remarkOnAll('saved-decisions', message)];
};

/** Reads a score; markings of an earlier annotation by us are left out, since the new plan takes their place. */
export const planScore = async (
  file: ScoreFile,
  choice: PlanChoice & LanguageChoice,
  clock: StageClock,
  tuneFormat: TuneFormat = 'mei',
): Promise<Outcome<PlannedScore>> => {
  const read = await readWhole(file, choice, clock, tuneFormat);
  if (!read.ok) return read;
  const { player, divide } = completeChoice(SHARING_CATALOGUE, choice, 'pedal');
  const { profile } = harpFor(choice, read.value);
  if (profile.kind === 'lever' || divide === 'no')
    return planShare(takeShare(read.value, player), choice, clock, read.value);
  const decided = decisionsFor(choice, read.value);
  if (!decided.ok) return decided;
  const { placed } = decided.value;
  const options = decidedOptionsFor(choice, profile, placed);
  const played = delayNotes(slowDown(read.value, placed.tempos), placed.delays);
  return planShare(takeDividedShare(read.value, player, divide, options, played), choice, clock, read.value);
};

/** A part as it is written, whoever plays it, without markings of an earlier annotation by us. */
export const readWhole = async (
  file: ScoreFile,
  choice: PlanChoice,
  clock: StageClock,
  tuneFormat: TuneFormat = 'mei',
): Promise<Outcome<Score>> => {
  clock.begin('read', null);
  const { movement, part, tune } = choice;
  const key = scoreKey(file.bytes, [file.fileName, part, tune, movement, tuneFormat]);
  const known = KNOWN.find(key);
  if (known !== undefined) return { ok: true, value: known };
  const opened = await openFile(file, choice, tuneFormat);
  if (!opened.ok) return opened;
  const score = withoutOwnMarkings(opened.value);
  KNOWN.keep(key, score);
  return { ok: true, value: score };
};

const KNOWN = createKnownScores();

/** A score at the times that were decided on and saved in its file, which prints them: at its tempos, with notes that wait. */
export const atSavedTimes = (score: Score): Score => {
  const { tempos, delays } = chooseDecisions(score, null, true).placed;
  return delayNotes(slowDown(score, tempos), delays);
};

/** Where there are pages, the language of their words. */
type LanguageChoice = { readonly language?: Language };

/** What pages say before a tempo that was decided on. */
export const noFasterWords = ({ language = ENGRAVING_CATALOGUE.language.default }: LanguageChoice): string =>
  NO_FASTER_IN[language];

/** What pages say of notes that wait. */
const delayWords = ({ language = ENGRAVING_CATALOGUE.language.default }: LanguageChoice): DelayWords =>
  DELAYED_IN[language];

/**
 * Plans what one player has of a part, at the tempos that were decided on.
 *
 * @param whole the part as it is for all its players, which the decisions are about
 */
export const planShare = (
  share: Score,
  choice: PlanChoice & LanguageChoice,
  clock: StageClock,
  whole: Score,
): Outcome<PlannedScore> => {
  clock.begin('plan', share.bars.length);
  const harp = harpFor(choice, share);
  const { profile } = harp;
  const played = profile.kind === 'lever' ? readLeverSigns(share) : share;
  const decided = decisionsFor(choice, share === whole ? played : whole);
  if (!decided.ok) return decided;
  const decisions = share === whole ? decided.value : decisionsOnShare(decided.value, played);
  const { placed } = decisions;
  const { delays, leverPins, omitted, respelled, tempos } = placed;
  const slowed = slowDown(played, tempos, noFasterWords(choice));
  const score = tellDelays(slowed, delays, delayWords(choice));
  const fitting = checkHarpOptions(choice, profile);
  if (!fitting.ok) return fitting;
  const plan = planPart(
    delayNotes(score, delays),
    profile.kind === 'pedal'
      ? { plan: decidedOptionsFor(choice, profile, placed) }
      : { levers: { ...leverOptionsFor(choice), profile, pins: leverPins, respelled, omitted } },
  );
  const remarks = [
    ...score.remarks,
    ...(harp.remark === null ? [] : [harp.remark]),
    ...decisions.remarks,
    ...otherHarpRemarks(decisions, profile.kind),
  ];
  return { ok: true, value: { score: { ...score, remarks }, plan, decisions } };
};
