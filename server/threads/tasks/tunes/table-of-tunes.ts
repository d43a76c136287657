import { chooseTunes, MOST_TUNES_IN_SET } from '../../../../engine/index.ts';
import type { SetMusic } from '../../../../render/pure.ts';
import type { TunesChoice } from '../../../api/answers/tune-table.ts';
import { dispositionOf } from '../../../http/file-name.ts';
import { replyJson } from '../../../http/reply.ts';
import { type RatedTune, reportTunes, writeTunesCsv } from '../../../reports/tune-table.ts';
import { fail, type Outcome } from '../../../service-problem.ts';
import type { ComputeJob, Reply } from '../../job.ts';
import type { StageClock } from '../stage-clock.ts';
import { drawTunes } from './draw-tunes.ts';
import { rateBook } from './rate-book.ts';

type TunesJob = Extract<ComputeJob, { readonly kind: 'tunes' }>;

/** The table of a tune book as it is wanted. */
export const tableOfTunes = async (job: TunesJob, clock: StageClock): Promise<Outcome<Reply>> => {
  const { choice, type, bytes, fileName } = job;
  const {
    only,
    sort = 'file',
    playable = false,
    asTuned = false,
    mostChanges,
    set = false,
    music = 'none',
    ...plain
  } = choice;
  clock.begin('plan', null);
  const numbers = only === undefined ? null : only.split(',').map((number) => number.trim());
  const rated = await rateBook({ bytes, fileName }, plain, { only: numbers, inOneTuning: set });
  if (!rated.ok) return rated;
  const unknown = refuseUnknown(rated.value.numbers, numbers);
  if (unknown !== null) return unknown;
  const filter = {
    only: numbers,
    playable,
    asTuned,
    mostChanges: mostChanges ?? null,
  };
  const tunes = chooseTunes(rated.value.tunes, filter, sort);
  const refusal = set ? refuseSet(tunes, choice) : refuseMusic(music);
  if (refusal !== null) return refusal;
  clock.begin('write', null);
  if (type === 'application/pdf') return printTable(set, tunes, music);
  return {
    ok: true,
    value:
      type === 'text/csv'
        ? {
            headers: {
              'Content-Type': 'text/csv; charset=utf-8',
              'Content-Disposition': dispositionOf('tunes.csv'),
            },
            body: new TextEncoder().encode(`${writeTunesCsv(tunes).join('\r\n')}\r\n`),
          }
        : replyJson(reportTunes(tunes, rated.value.failures, set)),
  };
};

/** A number that no tune of the book has is told, as the command tells it. */
const refuseUnknown = (known: readonly string[], only: readonly string[] | null) => {
  const missing = (only ?? []).filter((number) => !known.includes(number));
  return missing.length === 0
    ? null
    : fail({
        code: 'bad-option',
        option: 'only',
        value: missing.join(', '),
        expected: known.length === 0 ? 'a tune book' : `numbers of its tunes: ${known.join(', ')}`,
      });
};

const refuseMusic = (music: SetMusic) =>
  music === 'none'
    ? null
    : fail({
        code: 'bad-option',
        option: 'music',
        value: music,
        expected: 'it goes with the option set: only a set holds the music of its tunes',
      });

const refuseSet = (tunes: readonly RatedTune[], { only }: TunesChoice) => {
  const tunings = new Set(tunes.map(({ tuning }) => tuning));
  if (tunes.length <= MOST_TUNES_IN_SET && tunings.size <= 1) return null;
  return fail({
    code: 'bad-option',
    option: 'set',
    value: 'true',
    expected:
      tunes.length > MOST_TUNES_IN_SET
        ? `a set has at most ${MOST_TUNES_IN_SET} tunes, but there are ${tunes.length}: choose some with the option only${only === undefined ? '' : ', fewer than now'}`
        : 'the tunes must be in one tuning: name it with the option tuning',
  });
};

const printTable = async (
  set: boolean,
  tunes: readonly RatedTune[],
  music: SetMusic,
): Promise<Outcome<Reply>> => {
  const drawn = await drawTunes(set, tunes, music);
  if (!drawn.ok) return drawn;
  const { pages, pdf } = drawn.value;
  const headers = {
    'Content-Type': 'application/pdf',
    'Content-Disposition': dispositionOf('tunes.pdf'),
    'Tringle-Page-Count': `${pages.length}`,
  };
  return { ok: true, value: { headers, body: pdf } };
};
