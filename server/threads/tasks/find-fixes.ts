import {
  listFixes,
  type OfferedFix,
  type PlaceFixes,
  pedalOptionsFor,
  rationalKey,
} from '../../../engine/index.ts';
import type { FixesReport } from '../../api/answers/fixes.ts';
import type { FixesChoice } from '../../api/requests/options.ts';
import { type NameNote, noteNamer, reportChange, reportRemark } from '../../reports/report-notes.ts';
import { reportScore } from '../../reports/report-score.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { harpFor, planScore } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

/** The smallest fixes of every place of a part that a pedal harp cannot play. */
export const findFixes = async (
  file: ScoreFile,
  choice: FixesChoice,
  clock: StageClock,
): Promise<Outcome<FixesReport>> => {
  const planned = await planScore(file, choice, clock);
  if (!planned.ok) return planned;
  const { score, decisions } = planned.value;
  const { profile } = harpFor(choice, score);
  if (profile.kind === 'lever') {
    return fail({
      code: 'unsupported',
      feature: `Searching for fixes on the ${profile.name}`,
      advice: 'Choose a pedal harp with the option instrument, or compare keys for the lever harp.',
    });
  }
  const { pins, respelled, omitted } = decisions.placed;
  const options = { ...pedalOptionsFor(choice), profile, pins, respelled, omitted };
  const found = listFixes(score, options);
  const nameNote = noteNamer(score);
  const numberOf = (bar: number): string => score.bars[bar]!.number;
  return {
    ok: true,
    value: {
      ...reportScore(score),
      places: found.places.map((place) => reportPlace(place, nameNote, numberOf)),
      untried: found.untried,
      tempo: found.tempo,
      remarks: score.remarks.map(reportRemark),
    },
  };
};

const reportPlace = (
  { code, bar, barNumber, beat, notes, sentence, offers }: PlaceFixes,
  nameNote: NameNote,
  numberOf: (bar: number) => string,
): FixesReport['places'][number] => ({
  code,
  bar: barNumber,
  barIndex: bar,
  beat: rationalKey(beat),
  notes,
  sentence,
  fixes: offers.map((offer) => reportOffer(offer, nameNote, numberOf)),
});

const reportOffer = (
  { tempo, changes, ...offer }: OfferedFix,
  nameNote: NameNote,
  numberOf: (bar: number) => string,
): FixesReport['places'][number]['fixes'][number] => ({
  ...offer,
  changes: changes.map((change) => reportChange(change, nameNote)),
  tempo:
    tempo === null
      ? null
      : {
          quartersPerMinute: tempo.quartersPerMinute,
          written: tempo.written,
          fromBar: numberOf(tempo.bars.first),
          untilBar: numberOf(tempo.bars.last),
          proved: tempo.proved,
        },
});
