import { compare } from '../../music/rational.ts';
import type { Bar, BarRepeat } from '../model/bar.ts';
import type { Rest } from '../model/between-notes.ts';
import type { Score } from '../model/score.ts';
import type { SourceText } from '../model/source.ts';
import { readSharedTexts } from '../texts/shared-texts.ts';
import { readLeverLines } from '../words/lever-lines.ts';
import { readSplitSettings } from '../words/pedal-lines.ts';
import { quoteWords } from '../words/pedal-words.ts';
import { listTempo } from './directions/tempo.ts';
import type { HarpBar } from './harp-bars.ts';
import { IdRegistry } from './ids.ts';
import { readHarpNotes } from './notes/harp-notes.ts';
import { keyAt } from './notes/staff-signs.ts';
import type { BarPlace, RawPart } from './raw-part.ts';
import type { RemarkList } from './remark-list.ts';
import type { SharedSigns } from './shared-signs.ts';
import { placeInTime, type Timeline, timeOf } from './timeline.ts';

/** The harp as the file has it, bar by bar, and when each bar is. */
interface RawMusic {
  readonly source: SourceText;
  readonly bars: readonly HarpBar[];
  readonly raw: readonly RawPart[];
  readonly guide: SharedSigns;
  readonly timeline: Timeline;
}

/** What of a score is read bar by bar. */
export type PlacedMusic = Pick<Score, 'bars' | 'rests'> &
  ReturnType<typeof readHarpNotes> &
  PlacedSigns &
  ReturnType<typeof readSharedTexts>;

type PlacedSigns = Pick<Score, 'damps' | 'tempo' | 'landmarks' | 'markings' | 'unreadWords' | 'leverWords'>;

/** Sets all that is read bar by bar in the time of the score: bars, notes, rests and what stands between them. */
export const placeMusic = (music: RawMusic, remarks: RemarkList): PlacedMusic => {
  const { source, bars, raw, guide, timeline } = music;
  const ids = new IdRegistry(source.text);
  const repeats = guide.repeats.finish(timeline.durations);
  const scoreBars = bars.map((bar, index) => barOf(bar, index, raw[0]!, timeline, repeats[index]!, ids));
  const events = readHarpNotes(raw, { timeline, repeats, ids, remarks });
  const signs = placeSigns(raw, guide, timeline, remarks);
  reportUnreadWords(signs.unreadWords, remarks);
  const texts = readSharedTexts(
    placeInTime(guide.texts, timeline),
    bars.map(({ number }, bar) => ({ number, end: guide.ends.get(bar) ?? null })),
  );
  return { bars: scoreBars, ...events, rests: listRests(raw, timeline, ids), ...signs, ...texts };
};

/** What stands between the notes, in score time and in order. */
const placeSigns = (
  raw: readonly RawPart[],
  guide: SharedSigns,
  timeline: Timeline,
  remarks: RemarkList,
): PlacedSigns => {
  const place = <T extends BarPlace>(signs: readonly T[]) => placeInTime(signs, timeline);
  const damps = place(raw.flatMap((part) => part.damps));
  const usual = raw.find(({ naming }) => naming !== null)?.naming ?? null;
  const levers = place(raw.flatMap((part) => part.leverWords));
  return {
    damps: damps.map(({ at, kind, staff }) => ({ at, kind, staff })),
    tempo: listTempo(place(guide.tempo), raw[0]?.bars[0]?.signs.meter, remarks),
    landmarks: place(guide.landmarks),
    leverWords: readLeverLines(levers, usual).map((each) => ({ ...each, form: 'words' })),
    ...readSplitSettings(
      {
        markings: place(raw.flatMap((part) => part.markings)),
        unreadWords: place(raw.flatMap((part) => part.unreadWords)),
      },
      usual,
    ),
  };
};

const reportUnreadWords = (words: Score['unreadWords'], remarks: RemarkList): void => {
  for (const { bar, text } of words)
    remarks.skip(
      `These words seem to name pedals, but are not understood and are ignored: “${quoteWords(text)}”`,
      bar,
    );
};

const barOf = (
  { number, id, span }: HarpBar,
  index: number,
  part: RawPart,
  timeline: Timeline,
  repeat: BarRepeat,
  ids: IdRegistry,
): Bar => {
  const { meter, keys } = part.bars[index]!.signs;
  return {
    index,
    number,
    id: ids.idOf(id, 'b', span),
    span,
    onset: timeline.onsets[index]!,
    duration: timeline.durations[index]!,
    meter,
    keyFifths: keyAt(keys, 1, { num: 0, den: 1 }),
    repeat,
  };
};

const listRests = (raw: readonly RawPart[], timeline: Timeline, ids: IdRegistry): readonly Rest[] =>
  raw
    .flatMap((part) => part.rests)
    .map(({ sourceId, at, ...rest }) => ({
      id: ids.idOf(sourceId, 'r', rest.span),
      ...rest,
      onset: timeOf(timeline, { bar: rest.bar, at }),
    }))
    .toSorted((a, b) => compare(a.onset, b.onset) || a.staff - b.staff);
