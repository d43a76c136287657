import { compare } from '../../music/rational.ts';
import { ok, type PartSummary, type Result, refuse } from '../../problem.ts';
import type { XmlElement } from '../../xml/tree.ts';
import { chooseHarp, type HarpChoice, listHarps } from '../harp-choice.ts';
import type { Bar, BarRepeat, Rest, Score, SourceText } from '../model.ts';
import { findPlayOrder } from '../play-order.ts';
import { assembleNotes } from './assemble.ts';
import { readRepeats } from './bar-repeats.ts';
import { type BarsReading, readBars } from './bars.ts';
import type { BarDraft } from './draft.ts';
import { expandForm, type Form, layOutForm, MAX_PLAYED_BARS } from './form.ts';
import { collectIds } from './ids.ts';
import { openLog, type ReadLog } from './log.ts';
import { readMarkings } from './markings.ts';
import { findArpeggios, findDamps, findLetRing, findSweeps, type MarkContext } from './marks.ts';
import { checkVersion, findMovement } from './movement.ts';
import { shiftOctaves } from './octave-lines.ts';
import { findOrnaments } from './ornaments.ts';
import { findParts, type MeiPart } from './parts.ts';
import { soundNotes } from './sounding.ts';
import { readTempo } from './tempo.ts';
import { joinTies } from './ties.ts';
import { findTimes, type Times } from './times.ts';
import { readTitles } from './titles.ts';
import { remarkUnread } from './unread.ts';

/**
 * Reads the harp part of an MEI document: versions 3, 4 and 5, and those of 2012 and 2013.
 *
 * Of several movements the first is read. Only the harp's staves are read in full; tempo, rehearsal marks and repeats
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
  const movement = findMovement(root, source.text, log);
  if (!movement.ok) return movement;
  const parts = findParts(movement.value, source.text, log);
  const summaries = parts.map(
    ({ candidate: { id, name, staves, notes } }): PartSummary => ({ id, name, staves, notes }),
  );
  if (parts.length === 0) return refuse({ code: 'no-parts' });
  const candidates = parts.map((each) => each.candidate);
  const choice = chooseHarp(candidates, options.part);
  if (!choice.ok) return choice;
  if (choice.value.remark !== null) log.remark('harp-chosen', '', choice.value.remark);
  const chosen = choice.value.parts.flatMap((id) => parts.filter((each) => each.candidate.id === id));
  const score = readPart(
    root,
    movement.value,
    { chosen, choice: choice.value, alone: parts.length === chosen.length },
    source,
    log,
  );
  const problem = log.problem();
  if (problem !== null) return refuse(problem);
  if (score.notes.length === 0)
    return refuse({
      code: 'no-notes',
      part: choice.value.name || choice.value.parts.join(', '),
      parts: summaries,
    });
  return ok({ ...score, parts: summaries, harps: listHarps(candidates), remarks: [...log.remarks()] });
};

interface ChosenHarp {
  readonly chosen: readonly MeiPart[];
  readonly choice: HarpChoice;
  /** Whether the harp is the whole score. */
  readonly alone: boolean;
}

const readPart = (
  root: XmlElement,
  movement: XmlElement,
  { chosen, choice, alone }: ChosenHarp,
  source: SourceText,
  log: ReadLog,
): Omit<Score, 'parts' | 'harps' | 'remarks'> => {
  const meiStaves = chosen.flatMap((each) => each.staves);
  const form = layOutForm(movement, log);
  const reading = readBars(form.flow, meiStaves, collectIds(root), log);
  const barNumber = (bar: number): string => reading.bars[bar]?.number ?? '';
  const times = findTimes(reading, meiStaves, log);
  const repeats = readRepeats(reading.bars, reading.controls, times, source.text);
  remarkUnread(reading.controls, barNumber, log);
  return {
    source,
    titles: readTitles(root, source.text),
    harp: { partIds: choice.parts, name: choice.name, staves: meiStaves.length, meiStaves },
    bars: reading.bars.map((bar, index) => finishBar(bar, repeats[index]!)),
    rests: reading.rests.toSorted((a, b) => compare(a.onset, b.onset)) satisfies readonly Rest[],
    ...readMusic(reading, times, meiStaves, barNumber, log),
    ...readTempo(reading.controls, reading.bars, times, source.text, log),
    markings: readMarkings(reading.controls, times, alone, source.text, barNumber, log),
    playOrder: orderBars(form, reading.bars, repeats, log),
  };
};

const readMusic = (
  reading: BarsReading,
  times: Times,
  meiStaves: readonly string[],
  barNumber: (bar: number) => string,
  log: ReadLog,
): Pick<Score, 'notes' | 'sweeps' | 'damps'> => {
  const { bars, notes, controls, anchors } = reading;
  const notesOf = (id: string) => anchors.get(id)?.notes ?? [];
  const context: MarkContext = { notes, controls, times, notesOf, barNumber, log };
  const ties = joinTies(notes, bars, controls, times, barNumber, log);
  const shifts = shiftOctaves(notes, controls, meiStaves, times, barNumber, log);
  const ornaments = findOrnaments(notes, controls, times, barNumber, log);
  const soundings = soundNotes(bars, notes, { ties, shifts, ornaments }, log);
  const arpeggios = findArpeggios(context);
  if ([...soundings.values()].some((each) => each.harmonic?.assumed === true)) {
    log.remark(
      'harmonic-assumed',
      '',
      'Harmonics are taken as written at the pitch of the string: they sound an octave higher.',
    );
  }
  return {
    notes: assembleNotes(notes, {
      soundings,
      ties,
      arpeggios,
      letRing: findLetRing(context),
      barNumber,
      log,
    }),
    sweeps: findSweeps(context),
    damps: findDamps(notes),
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
      '',
      `The expansion names parts that are not there, comes back to itself or passes ${MAX_PLAYED_BARS} bars; the bars are taken in printed order.`,
    );
    return bars.map((bar) => bar.index);
  }
  if (expanded !== undefined) return expanded;
  const { order, remarks } = findPlayOrder(
    bars.map(({ number, index }) => ({ number, repeat: repeats[index]! })),
  );
  for (const each of remarks) log.remark(each.code, each.bar, each.message);
  return order;
};
