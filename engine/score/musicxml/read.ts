import { compare, type Rational } from '../../music/rational.ts';
import { fail, ok, type Result } from '../../problem.ts';
import type { XmlElement } from '../../xml/tree.ts';
import { findPlayOrder } from '../bars/play-order.ts';
import { chooseHarp, type HarpChoice, listHarps, type PartCandidate, summarizePart } from '../harp-choice.ts';
import type { Bar, BarRepeat } from '../model/bar.ts';
import type { Rest } from '../model/between-notes.ts';
import { remarkIn } from '../model/remark.ts';
import type { Score } from '../model/score.ts';
import type { SourceText } from '../model/source.ts';
import { readSharedTexts } from '../texts/shared-texts.ts';
import { readLeverLines } from '../words/lever-lines.ts';
import { readSplitSettings } from '../words/pedal-lines.ts';
import { quoteWords } from '../words/pedal-words.ts';
import { confirmSharing, sharedPartRemark } from '../words/sharing-words.ts';
import { listTempo } from './directions/tempo.ts';
import {
  type HarpBar,
  listHarpBars,
  placeHarpBars,
  readRawParts,
  reportUnequalLengths,
} from './harp-bars.ts';
import { IdRegistry } from './ids.ts';
import { readHarpNotes } from './notes/harp-notes.ts';
import { keyAt } from './notes/staff-signs.ts';
import { listCandidates, listParts, type Part } from './parts.ts';
import type { BarPlace, RawPart } from './raw-part.ts';
import { RemarkList } from './remark-list.ts';
import { readSharedSigns, type SharedSigns } from './shared-signs.ts';
import { type Timeline, timeOf } from './timeline.ts';
import { readTitles } from './titles.ts';
import { ReadError } from './values.ts';
import { WalkedBars } from './walk-bar.ts';

/**
 * Reads the harp of a MusicXML score, by part or by bar; tempo, rehearsal marks, repeats and jumps from all parts.
 *
 * @param options.part id or name of the part; found by name and sound if not given
 * @returns the score, or `no-parts`, `harp-not-found`, `unknown-part`, `no-notes` or `bad-value` with its place
 */
export const readMusicXml = (
  root: XmlElement,
  source: SourceText,
  options: { readonly part?: string },
): Result<Score> => {
  const parts = listParts(root, source.format);
  const candidates = listCandidates(root, parts);
  if (candidates.length === 0) return fail({ code: 'no-parts' });
  const choice = chooseHarp(candidates, options.part);
  if (!choice.ok) return choice;
  try {
    return readChosen(root, source, parts, candidates, choice.value);
  } catch (thrown) {
    if (thrown instanceof ReadError) return fail(thrown.problemIn(source.text));
    throw thrown;
  }
};

/** The parts that the harp has, of those with bars. */
const takeChosen = (
  parts: readonly Part[],
  candidates: readonly PartCandidate[],
  choice: HarpChoice,
  remarks: RemarkList,
): readonly Part[] => {
  if (choice.remark !== null) remarks.add('harp-chosen', null, choice.remark.replace(/\.$/u, ''));
  const chosen = choice.parts.flatMap(
    (id) => parts.find((part) => part.id === id && part.bars.length > 0) ?? [],
  );
  for (const { id, name } of candidates) {
    if (choice.parts.includes(id) && !chosen.some((part) => part.id === id))
      remarks.add('skipped', null, `${name || id} is listed, but the file has no bars of it`);
  }
  return chosen;
};

const reportUnreadWords = (words: Score['unreadWords'], remarks: RemarkList): void => {
  for (const { bar, text } of words)
    remarks.skip(
      `These words seem to name pedals, but are not understood and are ignored: “${quoteWords(text)}”`,
      bar,
    );
};

/** For how many players the part is, and what its words say of them. */
const readSharing = (
  { name }: HarpChoice,
  raw: readonly RawPart[],
  timeline: Timeline,
  remarks: RemarkList,
): ReturnType<typeof confirmSharing> => {
  const marks = raw.flatMap((part) => part.sharing);
  const shared = confirmSharing(name, placeInTime(marks, timeline));
  if (shared.players > 1) remarks.add('harp-chosen', null, sharedPartRemark(shared.players));
  return shared;
};

const readChosen = (
  root: XmlElement,
  source: SourceText,
  parts: readonly Part[],
  candidates: readonly PartCandidate[],
  choice: HarpChoice,
): Result<Score> => {
  const remarks = new RemarkList();
  const chosen = takeChosen(parts, candidates, choice, remarks);
  const bars = listHarpBars(chosen);
  const walks = new WalkedBars();
  const raw = readRawParts(chosen, bars, walks, remarks);
  if (!raw.some((part) => part.notes.length > 0))
    return fail({ code: 'no-notes', part: choice.name, parts: candidates.map(summarizePart) });
  reportUnequalLengths(parts, bars.length, remarks);
  const guide = readSharedSigns(parts, bars.length, walks, remarks);
  const timeline = placeHarpBars(bars, raw, guide, remarks);
  const ids = new IdRegistry(source.text);
  const repeats = guide.repeats.finish(timeline.durations);
  const scoreBars = bars.map((bar, index) => barOf(bar, index, raw[0]!, timeline, repeats[index]!, ids));
  const events = readHarpNotes(raw, {
    timeline,
    repeats,
    ids,
    remarks,
  });
  const signs = placeSigns(raw, guide, timeline, remarks);
  reportUnreadWords(signs.unreadWords, remarks);
  const shared = readSharing(choice, raw, timeline, remarks);
  const played = findPlayOrder(scoreBars);
  const texts = readSharedTexts(
    placeInTime(guide.texts, timeline),
    bars.map(({ number }, bar) => ({ number, end: guide.ends.get(bar) ?? null })),
  );
  const numbered = { bars: scoreBars, movements: texts.movements };
  return ok({
    source,
    titles: readTitles(root),
    parts: candidates.map(summarizePart),
    harp: {
      partIds: chosen.map(({ id }) => id),
      name: choice.name,
      players: shared.players,
      staves: raw.reduce((sum, part) => sum + part.staves, 0),
      meiStaves: [],
    },
    harps: listHarps(candidates),
    bars: scoreBars,
    ...events,
    keyMode: raw[0]?.bars[0]?.signs.keys[0]?.mode ?? null,
    rests: listRests(raw, timeline, ids),
    ...signs,
    ...texts,
    sharing: shared.marks,
    share: null,
    slowed: [],
    delayed: [],
    playOrder: played.order,
    remarks: [...remarks.list(numbered), ...played.remarks.map((each) => remarkIn(numbered, each))],
  });
};

/** Signs in score time and in order. */
const placeInTime = <T extends BarPlace>(
  signs: readonly T[],
  timeline: Timeline,
): readonly (T & { readonly at: Rational })[] =>
  signs.map((sign) => ({ ...sign, at: timeOf(timeline, sign) })).toSorted((a, b) => compare(a.at, b.at));

/** What stands between the notes, in score time and in order. */
const placeSigns = (
  raw: readonly RawPart[],
  guide: SharedSigns,
  timeline: Timeline,
  remarks: RemarkList,
): Pick<Score, 'damps' | 'tempo' | 'landmarks' | 'markings' | 'unreadWords' | 'leverWords'> => {
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
