import { compare } from '../../music/rational.ts';
import { fail, ok, type PartSummary, type Result } from '../../problem.ts';
import type { XmlElement } from '../../xml/tree.ts';
import { findPlayOrder, MAX_PLAYED_BARS } from '../bars/play-order.ts';
import { chooseHarp, type HarpChoice, listHarps } from '../harp-choice.ts';
import { isSmallDiamond } from '../lever-signs.ts';
import type { Bar, BarRepeat } from '../model/bar.ts';
import type { Rest } from '../model/between-notes.ts';
import type { Score } from '../model/score.ts';
import type { SourceText } from '../model/source.ts';
import { readSharedTexts } from '../texts/shared-texts.ts';
import { addGlissandiInWords, type GlissandoText, untoldGlissando } from '../words/glissandi-in-words.ts';
import { confirmSharing, sharedPartRemark } from '../words/sharing-words.ts';
import { assembleNotes } from './assemble-notes.ts';
import type { BarDraft } from './draft.ts';
import { readRepeats } from './form/bar-repeats.ts';
import { type BarsReading, readBars } from './form/bars.ts';
import { expandForm, type Form, readForm } from './form/form.ts';
import { collectIds } from './ids.ts';
import { openLog, type ReadLog } from './log.ts';
import { findBeamSpans } from './marks/beam-spans.ts';
import { readGlissandoTexts } from './marks/glissando-texts.ts';
import { type MarkTimes, resolveMarkTimes } from './marks/mark-times.ts';
import { readMarkings } from './marks/markings.ts';
import { findArpeggios, findDamps, findLetRing, findSweeps, type MarkContext } from './marks/marks.ts';
import { shiftOctaves } from './marks/octave-lines.ts';
import { findOrnaments } from './marks/ornaments.ts';
import { findPhrases } from './marks/phrases.ts';
import { findHandWords, findHarpWords, findSharing, type HarpWords } from './marks/player-words.ts';
import { readPrintedTexts } from './marks/printed-texts.ts';
import { readTempo } from './marks/tempo.ts';
import { joinTies } from './marks/ties.ts';
import { remarkUnknownElements } from './marks/unknown-elements.ts';
import { checkVersion, findMovement } from './movement.ts';
import { findParts, type MeiPart } from './parts.ts';
import { resolvePitches } from './resolve-pitches.ts';

import { readTitles } from './titles.ts';

/**
 * Reads the harp part of an MEI document: versions 3, 4 and 5, and those of 2012 and 2013.
 *
 * Only the harp's staves are read in full; tempo, rehearsal marks and repeats
 * count from any staff.
 *
 * @param options.part id or name of the part to read as the harp
 * @returns the score; or `unsupported`, `no-parts`, `harp-not-found`, `unknown-part`, `no-notes` or `bad-value`
 */
export const readMei = (
  root: XmlElement,
  source: SourceText,
  options: { readonly part?: string },
): Result<Score> => {
  const log = openLog(source.text);
  const version = checkVersion(root);
  if (!version.ok) return version;
  const movement = findMovement(root);
  if (!movement.ok) return movement;
  const parts = findParts(movement.value, source.text, log);
  const summaries = parts.map(
    ({ candidate: { id, name, staves, notes } }): PartSummary => ({ id, name, staves, notes }),
  );
  if (parts.length === 0) return fail({ code: 'no-parts' });
  const candidates = parts.map((each) => each.candidate);
  const choice = chooseHarp(candidates, options.part);
  if (!choice.ok) return choice;
  if (choice.value.remark !== null) log.remark('harp-chosen', null, choice.value.remark);
  const chosen = choice.value.parts.flatMap((id) => parts.filter((each) => each.candidate.id === id));
  const score = readPart(root, movement.value, { chosen, choice: choice.value, parts }, source, log);
  const problem = log.problem();
  if (problem !== null) return fail(problem);
  if (score.notes.length === 0)
    return fail({
      code: 'no-notes',
      part: choice.value.name || choice.value.parts.join(', '),
      parts: summaries,
    });
  return ok({ ...score, parts: summaries, harps: listHarps(candidates), remarks: log.remarks(score) });
};

/** What the bar line on the right of a measure ends. */
const ENDS: Readonly<Record<string, 'final' | 'double'>> = { end: 'final', dbl: 'double' };

interface ChosenHarp {
  readonly chosen: readonly MeiPart[];
  readonly choice: HarpChoice;
  /** All parts of the score. */
  readonly parts: readonly MeiPart[];
}

const readPart = (
  root: XmlElement,
  movement: XmlElement,
  { chosen, choice, parts }: ChosenHarp,
  source: SourceText,
  log: ReadLog,
): Omit<Score, 'parts' | 'harps' | 'remarks'> => {
  /** The harp is the whole score. */
  const alone = parts.length === chosen.length;
  const meiStaves = chosen.flatMap((each) => each.staves);
  const form = readForm(movement, log);
  const reading = readBars(form.flow, meiStaves, collectIds(root), log);
  const times = resolveMarkTimes(reading, meiStaves, log);
  const repeats = readRepeats(reading.bars, reading.controls, times, source.text);
  remarkUnknownElements(reading.controls, log);
  const words = findHarpWords(reading.controls, times, alone, source.text);
  const { players, marks } = confirmSharing(choice.name, findSharing(words, times, meiStaves));
  if (players > 1) log.remark('harp-chosen', null, `${sharedPartRemark(players)}.`);
  return {
    source,
    titles: readTitles(root, source.text),
    harp: { partIds: choice.parts, name: choice.name, players, staves: meiStaves.length, meiStaves },
    bars: reading.bars.map((bar, index) => finishBar(bar, repeats[index]!)),
    keyMode: reading.bars[0]?.staves[0]?.key.mode ?? null,
    rests: reading.rests.toSorted((a, b) => compare(a.onset, b.onset)) satisfies readonly Rest[],
    ...readMusic(
      reading,
      times,
      meiStaves,
      { glissandi: readGlissandoTexts(reading.controls, times, meiStaves, alone, source.text), harp: words },
      log,
    ),
    sharing: marks,
    share: null,
    isTune: false,
    slowed: [],
    delayed: [],
    ...readTempo(reading.controls, reading.bars, times, source.text, log),
    ...readSharedTexts(
      readPrintedTexts(
        reading.controls,
        reading.bars,
        times,
        parts.map(({ staves }) => staves),
        source.text,
      ),
      reading.bars.map(({ number, element }) => ({
        number,
        end: ENDS[element.attributes.right ?? ''] ?? null,
      })),
    ),
    ...readMarkings(reading.controls, times, alone, source.text, log),
    playOrder: orderBars(form, reading.bars, repeats, log),
  };
};

const readMusic = (
  reading: BarsReading,
  times: MarkTimes,
  meiStaves: readonly string[],
  words: { readonly glissandi: readonly GlissandoText[]; readonly harp: readonly HarpWords[] },
  log: ReadLog,
): Pick<Score, 'notes' | 'sweeps' | 'phrases' | 'damps' | 'smallDiamonds'> => {
  const { bars, notes, controls, anchors } = reading;
  const notesOf = (id: string) => anchors.get(id)?.notes ?? [];
  const context: MarkContext = { notes, controls, times, notesOf, log };
  const ties = joinTies(notes, bars, controls, times, log);
  const shifts = shiftOctaves(notes, controls, meiStaves, times, log);
  const ornaments = findOrnaments(notes, controls, times, log);
  const soundings = resolvePitches(bars, notes, { ties, shifts, ornaments }, log);
  const arpeggios = findArpeggios(context);
  if ([...soundings.values()].some((each) => each.harmonic?.assumed === true)) {
    log.remark(
      'harmonic-assumed',
      null,
      'Harmonics are read as written at the pitch of the string: they sound an octave higher.',
    );
  }
  const assembled = assembleNotes(notes, {
    soundings,
    ties,
    arpeggios,
    letRing: findLetRing(context),
    beams: findBeamSpans(context),
    hands: findHandWords(words.harp, notes, times, meiStaves),
    log,
  });
  const swept = addGlissandiInWords(assembled, findSweeps(context), words.glissandi);
  for (const text of swept.untold) log.remark('skipped', text.bar, `${untoldGlissando(text)}.`);
  return {
    notes: assembled,
    sweeps: swept.sweeps,
    phrases: findPhrases(context),
    damps: findDamps(notes),
    smallDiamonds: notes.filter((note) => isSmallDiamond(note, note.harmonic)).map(({ id }) => id),
  };
};

const finishBar = (draft: BarDraft, repeat: BarRepeat): Bar => {
  const { index, number, id, element, onset, duration, meter, keyFifths } = draft;
  return { index, number, id, span: element.span, onset, duration, meter, keyFifths, repeat };
};

/** The order of an `expansion` where there is one, else of repeat signs. */
const orderBars = (
  { whole }: Form,
  bars: readonly BarDraft[],
  repeats: readonly BarRepeat[],
  log: ReadLog,
): readonly number[] => {
  const expanded = expandForm(whole);
  if (expanded === null) {
    log.remark(
      'repeat-ill-formed',
      null,
      `The play order in the file (expansion) names missing sections, repeats itself endlessly or exceeds ${MAX_PLAYED_BARS} bars. The bars are read in printed order.`,
    );
    return bars.map((bar) => bar.index);
  }
  if (expanded !== undefined) return expanded;
  const { order, remarks } = findPlayOrder(bars.map(({ index }) => ({ repeat: repeats[index]! })));
  for (const each of remarks) log.remark(each.code, each.bar, each.message);
  return order;
};
