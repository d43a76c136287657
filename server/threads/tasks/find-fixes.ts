import {
  decidedOptionsFor,
  decisionsOfFix,
  delayNotes,
  FINDINGS,
  isAtAll,
  listFixes,
  listRunsIn,
  nameBarIn,
  nameNotes,
  type OfferedFix,
  type PlaceFixes,
  rationalKey,
  type Score,
  type TempoLimit,
  type WarningLeft,
} from '../../../engine/index.ts';
import type { FixesReport, ReportedFix } from '../../api/answers/fixes.ts';
import type { FixesChoice } from '../../api/requests/options.ts';
import {
  noteNamer,
  reportChange,
  reportOmitted,
  reportRemark,
  reportRespelled,
} from '../../reports/report-notes.ts';
import { reportScore } from '../../reports/report-score.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { harpFor, planScore } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

/**
 * The smallest fixes of every place of a part that a pedal harp cannot play.
 *
 * @param onPlace told how many of all places are done
 */
export const findFixes = async (
  file: ScoreFile,
  choice: FixesChoice,
  clock: StageClock,
  onPlace?: (done: number, all: number) => void,
): Promise<Outcome<FixesReport>> => {
  const planned = await planScore(file, choice, clock);
  if (!planned.ok) return planned;
  const { score, decisions, plan } = planned.value;
  const { profile } = harpFor(choice, score);
  if (profile.kind === 'lever' || plan.kind === 'lever') {
    return fail({
      code: 'unsupported',
      feature: `Searching for fixes on the ${profile.name}`,
      advice: 'Choose a pedal harp with the option instrument, or compare keys for the lever harp.',
    });
  }
  const { placed } = decisions;
  const options = decidedOptionsFor(choice, profile, placed);
  const found = listFixes(delayNotes(score, placed.delays), options, undefined, onPlace, plan.plan);
  const report = offerReporter(score);
  return {
    ok: true,
    value: {
      ...reportScore(score),
      places: found.places.map((place, at) => ({
        ...reportPlace(place),
        fixes: place.offers.map((offer) => ({ ...report(offer), atAll: isAtAll(offer, at, found.passages) })),
      })),
      passages: found.passages.map(({ code, places, sentence, offers }) => ({
        code,
        bars: listRunsIn(score)([...new Set(places.map((at) => found.places[at]!.bar))]),
        places,
        sentence,
        fixes: offers.map((offer) => ({ ...report(offer), places: offer.places })),
      })),
      untried: found.untried,
      tempo: {
        ...found.tempo,
        left: found.tempo.left.map(warningReporter(score)),
        mended: found.tempo.mended.map(({ bar, beat, quartersPerMinute, there }) => ({
          barName: nameBarIn(score)(bar),
          barIndex: bar,
          beat: rationalKey(beat),
          quartersPerMinute,
          there,
        })),
      },
      freeSpelling: found.freeSpelling,
      remarks: score.remarks.map(reportRemark),
    },
  };
};

type ReportedPlace = FixesReport['places'][number];
const reportPlace = ({
  code,
  bar,
  barNumber,
  barName,
  beat,
  notes,
  sentence,
}: PlaceFixes): Omit<ReportedPlace, 'fixes'> => ({
  code,
  bar: barNumber,
  barName,
  barIndex: bar,
  beat: rationalKey(beat),
  notes,
  sentence,
});

const offerReporter = (score: Score): ((offer: OfferedFix) => ReportedFix) => {
  const nameOf = nameNotes(score);
  const nameNote = noteNamer(score);
  return (offer) => {
    const { sentence, heard, moreMoves, moreWarnings, warningsThen, alsoFixes, cost } = offer;
    const { respell, omit, delays, tempos } = decisionsOfFix(score, offer, nameOf);
    const told = {
      sentence,
      heard,
      moreMoves,
      moreWarnings,
      warningsThen: warningsThen.map(warningReporter(score)),
      alsoFixes,
      cost,
    };
    switch (offer.kind) {
      case 'respell':
      case 'octave': {
        const changes = offer.changes.map((change) => reportRespelled(change, nameNote));
        return { ...told, kind: offer.kind, changes, decisions: { respell } };
      }
      case 'leave-out-doubled':
      case 'second-harp': {
        const changes = offer.changes.map((change) => reportOmitted(change, nameNote));
        return { ...told, kind: offer.kind, changes, decisions: { omit } };
      }
      case 'leave-out': {
        const changes = offer.changes.map((change) => reportChange(change, nameNote));
        return { ...told, kind: offer.kind, changes, decisions: { respell, omit } };
      }
      case 'delay':
        return { ...told, kind: offer.kind, decisions: { delays } };
      case 'tempo':
        return { ...told, kind: offer.kind, tempo: reportTempo(offer.tempo, score), decisions: { tempos } };
    }
  };
};

const warningReporter =
  (score: Score) =>
  ({ code, bars }: WarningLeft): FixesReport['tempo']['left'][number] => ({
    code,
    title: FINDINGS[code].title,
    bars: listRunsIn(score)(bars),
    barIndices: bars,
  });

const reportTempo = (
  { quartersPerMinute, written, bars, left, proved }: TempoLimit,
  score: Score,
): Extract<ReportedFix, { readonly kind: 'tempo' }>['tempo'] => ({
  quartersPerMinute,
  written,
  fromBar: score.bars[bars.first]!.number,
  untilBar: score.bars[bars.last]!.number,
  left: left.map(warningReporter(score)),
  proved,
});
