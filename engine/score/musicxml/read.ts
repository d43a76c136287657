import { fail, ok, type Result } from '../../problem.ts';
import type { XmlElement } from '../../xml/tree.ts';
import { findPlayOrder } from '../bars/play-order.ts';
import { chooseHarp, type HarpChoice, listHarps, type PartCandidate, summarizePart } from '../harp-choice.ts';
import { remarkIn } from '../model/remark.ts';
import type { Score } from '../model/score.ts';
import type { SourceText } from '../model/source.ts';
import { confirmSharing, sharedPartRemark } from '../words/sharing-words.ts';
import { listHarpBars, placeHarpBars, readRawParts, reportUnequalLengths } from './harp-bars.ts';
import { listCandidates, listParts, type Part } from './parts.ts';
import { placeMusic } from './place-music.ts';
import type { RawPart } from './raw-part.ts';
import { RemarkList } from './remark-list.ts';
import { readSharedSigns } from './shared-signs.ts';
import { placeInTime, type Timeline } from './timeline.ts';
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
  const music = placeMusic({ source, bars, raw, guide, timeline }, remarks);
  const shared = readSharing(choice, raw, timeline, remarks);
  const played = findPlayOrder(music.bars);
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
    keyMode: raw[0]?.bars[0]?.signs.keys[0]?.mode ?? null,
    ...music,
    sharing: shared.marks,
    share: null,
    isTune: false,
    slowed: [],
    delayed: [],
    playOrder: played.order,
    remarks: [...remarks.list(music), ...played.remarks.map((each) => remarkIn(music, each))],
  });
};
