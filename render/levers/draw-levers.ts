import { LETTERS_FROM_C, openAlter } from '../../engine/index.ts';
import { drawRows } from '../draw/draw-rows.ts';
import { type Drawing, PADDING_VU, roundUnits, stackDrawings } from '../draw/drawing.ts';
import { type NameItem, octaveText, type RowItem } from '../draw/name-items.ts';
import { CAP_HEIGHT_VU, LETTER_SIZE_VU, OVERHANG_VU, setNameRow } from '../draw/name-row.ts';
import { scaleFor, scaleToWidth } from '../draw/scaled.ts';
import { tellHands, tellLeverChanges, tellTimes, underWords, type WordsSide } from '../draw/words-under.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { returnTime } from '../markings/markings.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { nameNote, printedAlter } from '../markings/note-names.ts';
import { textWidth } from '../text/glyphs.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';
import type { LeverChange } from './lever-change.ts';
import type { LeverMarking } from './lever-markings.ts';
import { drawLeverTable, type LeverTable } from './lever-table.ts';
import { groupLevers, joinOctaves, tonicOf } from './lever-words.ts';

/** From one baseline to the next. */
const ROW_VU = 5;
/** Lines of words beside the table are broken where they would be longer. */
const LONGEST_ROW_VU = 52;
const BESIDE_TABLE_VU = 3;

/**
 * A change as names in a row: `F♯4 C♯5`, under it what is only for who comes back, after the time that it is for. Under
 * the names stands in small words what is told in words, or where asked for the hand: before its name it would make the
 * marking so wide that it would be read at an earlier note.
 *
 * @param side where the change has its moment: what stands under the names keeps to that side
 */
export const drawLeverChange = (
  marking: Pick<
    LeverMarking & { kind: 'lever-change' },
    'changes' | 'onReturn' | 'atOneTime' | 'timesPlayed' | 'inWords'
  >,
  engraving: Pick<EngravingOptions, 'naming' | 'language' | 'leverHands'>,
  side: WordsSide = 'centre',
): Drawing => {
  const { changes, onReturn } = marking;
  const back = [words(returnTime(marking, wordsOf(engraving).inWords.times)), ...onReturn.map(stringItem)];
  const names = drawRows(
    [...(changes.length === 0 ? [] : [changes.map(stringItem)]), ...(onReturn.length === 0 ? [] : [back])],
    engraving.naming,
  );
  const last = [...changes, ...onReturn].at(-1)!;
  return underWords({ ...names, tailVu: octaveVu(last) }, linesUnder(marking, engraving), side);
};

/** How wide the octave is at the end of a name: the note that needs the change is known by letter and sign. */
const octaveVu = (change: LeverChange): number =>
  PADDING_VU + textWidth(octaveText(stringItem(change)), { style: 'bold', sizeUnits: LETTER_SIZE_VU });

/** The words have the hand too. */
const linesUnder = (
  marking: Parameters<typeof drawLeverChange>[0],
  engraving: Parameters<typeof drawLeverChange>[1],
): readonly string[] => {
  const { changes, onReturn, inWords } = marking;
  const times = tellTimes(marking, engraving);
  if (inWords.length > 0) return [...tellLeverChanges(inWords, engraving), ...times];
  return [...(engraving.leverHands ? tellHands([...changes, ...onReturn], engraving) : []), ...times];
};

/** What stands before the first note: the table of the levers, and beside it the tuning and the levers in words. */
export const drawLeverStart = (
  start: Pick<LeverMarking & { kind: 'levers' }, 'tuning' | 'up' | 'levers'>,
  {
    naming,
    language,
    settingMm,
    staffMm,
  }: Pick<EngravingOptions, 'naming' | 'language' | 'settingMm' | 'staffMm'>,
): Drawing => {
  const told = wordsOf({ language });
  const rows = [tuningItems(start, naming, told), ...upRows(start, naming, told)].map((items) =>
    setNameRow(items, naming),
  );
  const table = scaleTable(drawLeverTable(start, naming), { settingMm, staffMm });
  const left = PADDING_VU + table.widthVu + BESIDE_TABLE_VU;
  const wordsHeight = OVERHANG_VU * 2 + CAP_HEIGHT_VU + (rows.length - 1) * ROW_VU;
  const height = Math.max(table.heightVu, wordsHeight);
  const top = PADDING_VU + height - wordsHeight + OVERHANG_VU + CAP_HEIGHT_VU;
  return {
    box: {
      widthVu: left + Math.max(...rows.map(({ widthVu }) => widthVu)) + PADDING_VU,
      heightVu: height + 2 * PADDING_VU,
    },
    body:
      table.at(PADDING_VU, PADDING_VU + height - table.heightVu) +
      rows.map((row, i) => row.at(left, top + i * ROW_VU)).join(''),
    text: rows.map(({ text }) => text).join(' '),
  };
};

const scaleTable = (
  { widthVu, heightVu, at }: LeverTable,
  size: Pick<EngravingOptions, 'settingMm' | 'staffMm'>,
): LeverTable => {
  const scale = scaleFor(widthVu, size);
  if (scale === 1) return { widthVu, heightVu, at };
  return {
    widthVu: widthVu * scale,
    heightVu: heightVu * scale,
    at: (x, y) =>
      `<g transform="translate(${roundUnits(x)} ${roundUnits(y)}) scale(${roundUnits(scale)})">${at(0, 0)}</g>`,
  };
};

/** The table again, without words but for the time that it is for. */
export const drawReminder = (
  marking: LeverMarking & { kind: 'levers' },
  engraving: Pick<EngravingOptions, 'naming' | 'language' | 'settingMm' | 'staffMm'>,
): Drawing => {
  const table = scaleToWidth(drawLeverTableAlone(marking, engraving), engraving);
  const { first } = wordsOf(engraving).inWords.times;
  return marking.firstTimeOnly ? stackDrawings([drawRows([[words(first)]], engraving.naming), table]) : table;
};

/** The table that a pupil is to fill, where it stands in the box of what stands before the music. */
export const drawLeverForm = (
  { levers }: Pick<LeverMarking & { kind: 'levers' }, 'levers'>,
  { naming, ...size }: Pick<EngravingOptions, 'naming' | 'settingMm' | 'staffMm'>,
  { heightVu }: Drawing['box'],
): string => {
  const table = scaleTable(drawLeverTable({ up: null, levers }, naming), size);
  return table.at(PADDING_VU, heightVu - PADDING_VU - table.heightVu);
};

/** A table, without words. */
export const drawLeverTableAlone = (
  marking: Pick<LeverMarking & { kind: 'levers' }, 'up' | 'levers'>,
  { naming, language }: Pick<EngravingOptions, 'naming' | 'language'>,
): Drawing => {
  const { onMusic } = wordsOf({ language }).levers;
  const table = drawLeverTable(marking, naming);
  return {
    box: { widthVu: table.widthVu + 2 * PADDING_VU, heightVu: table.heightVu + 2 * PADDING_VU },
    body: table.at(PADDING_VU, PADDING_VU),
    text:
      marking.up.length === 0
        ? onMusic.allDown
        : `${onMusic.up} ${setNameRow(marking.up.map(stringItem), naming).text}`,
  };
};

const stringItem = ({ string: { letter, octave }, alter }: LeverChange): NameItem => ({
  ...letterItem(letter, alter),
  octave,
});

const letterItem = (letter: LeverChange['string']['letter'], alter: number) => ({
  kind: 'name' as const,
  letter,
  position: printedAlter(alter),
  ringed: false,
});

const words = (text: string): RowItem => ({ kind: 'words', text });

/** `Tuning E♭ major`, or the seven names from C where the tuning is no key's; then the strings tuned apart. */
const tuningItems = (
  { tuning }: Pick<LeverMarking & { kind: 'levers' }, 'tuning'>,
  naming: NoteNaming,
  { levers: { onMusic }, notes }: Words,
): RowItem[] => {
  const tonic = tonicOf(tuning);
  const apart = tuning.exceptions.map(({ string }) =>
    stringItem({ string, alter: openAlter(tuning, string) }),
  );
  if (tonic === null) {
    return [
      words(onMusic.tuning),
      ...LETTERS_FROM_C.map((letter) => letterItem(letter, tuning.letters[letter])),
      ...apart,
    ];
  }
  const { letter, alter } = tonic;
  const { word, accidental } = nameNote(letter, alter, naming);
  // German joins the two by a hyphen, after an accidental by a space.
  const key =
    alter === 0 || accidental === null
      ? [words(notes.major(word))]
      : [letterItem(letter, alter), words(notes.major('').replace(/^[\s-]/u, ''))];
  return [words(onMusic.tuning), ...key, ...apart];
};

/** The levers that are up, in rows of bounded length. */
const upRows = (
  { up, levers }: Pick<LeverMarking & { kind: 'levers' }, 'up' | 'levers'>,
  naming: NoteNaming,
  { levers: { onMusic } }: Words,
): RowItem[][] => {
  if (up.length === 0) return [[words(onMusic.allDown)]];
  const groups = joinOctaves(groupLevers(up, levers)).map((told): RowItem[] => {
    const { change } = told;
    if (told.kind === 'letter') return [words(onMusic.all), letterItem(change.string.letter, change.alter)];
    return [{ ...stringItem(change), ...(told.kind === 'octaves' ? { untilOctave: told.until } : {}) }];
  });
  const rows: RowItem[][] = [[words(onMusic.up)]];
  for (const group of groups) {
    const longer = [...rows.at(-1)!, ...group];
    const fits = setNameRow(longer, naming).widthVu <= LONGEST_ROW_VU;
    if (fits) rows[rows.length - 1] = longer;
    else rows.push(group);
  }
  return rows;
};
