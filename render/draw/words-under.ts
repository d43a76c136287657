import { group } from 'd3-array';
import { nameOfPosition } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { LeverNameChange, TimedLeverChange, ToldLeverChange } from '../levers/lever-change.ts';
import { timeInWords } from '../levers/lever-words.ts';
import type { Marking, ToldChange } from '../markings/markings.ts';
import { type NoteNaming, nameNote } from '../markings/note-names.ts';
import { textOutline } from '../text/glyphs.ts';
import { wordsOf } from '../words/words.ts';
import { type Drawing, drawPath, PADDING_VU, roundUnits, SHARE_LEFT } from './drawing.ts';

type Told = Pick<EngravingOptions, 'naming' | 'language'>;

/** On which side words and what they stand under are flush. */
export type WordsSide = keyof typeof SHARE_LEFT;

const SIZE_VU = 3.4;
const LINE_VU = 3.9;
const BASELINE_VU = 3;

/** The letter of a pedal or of a string, without a sign. */
const letterName = (letter: ToldChange['letter'], naming: NoteNaming): string =>
  nameNote(letter, 0, naming).word;

/** Changes of pedals in short lines: `F to sharp`, `right foot`; of several, one line each. */
export const tellChanges = (
  changes: readonly ToldChange[],
  { naming, language }: Told,
): readonly string[] => {
  const { inWords, notes } = wordsOf({ language });
  const lines = changes.map(({ letter, position, foot }) => [
    inWords.pedal(letterName(letter, naming), notes.positions[nameOfPosition(position)]),
    inWords.feet[foot],
  ]);
  return lines.length > MOST_IN_TWO_LINES ? lines.map((line) => line.join(', ')) : lines.flat();
};

/** More changes at one place would make a column as high as a system. */
const MOST_IN_TWO_LINES = 2;

/** Among letters at their notes, that these stand where the foot moves; with their names where others stand there too. */
export const tellPlace = (
  {
    cannotWait,
    left,
    right,
  }: Pick<Extract<Marking, { readonly kind: 'change' }>, 'cannotWait' | 'left' | 'right'>,
  { naming, language }: Told,
): readonly string[] => {
  if (cannotWait.length === 0) return [];
  const { here } = wordsOf({ language }).inWords;
  if (cannotWait.length === left.length + right.length) return [here];
  return [`${cannotWait.map((letter) => letterName(letter, naming)).join(', ')}: ${here}`];
};

/**
 * Changes of levers in short lines: `up`, `l.h.`, since wider ones would reach under the notes before or after the name; of
 * several, each with its string: `F4: up`, `left hand`.
 */
export const tellLeverChanges = (
  changes: readonly ToldLeverChange[],
  { naming, language }: Told,
): readonly string[] => {
  const { inWords, levers } = wordsOf({ language });
  return changes.flatMap(({ string: { letter, octave }, to, hand }) =>
    changes.length === 1
      ? [inWords.levers[to], levers.handLabels[hand]]
      : [`${letterName(letter, naming)}${octave}: ${inWords.levers[to]}`, inWords.hands[hand]],
  );
};

/** The hand that sets the levers of a change: `l.h.`; of two hands, each with its strings: `F4 C5: l.h.`. */
export const tellHands = (
  changes: readonly LeverNameChange[],
  { naming, language }: Told,
): readonly string[] => {
  const { handLabels } = wordsOf({ language }).levers;
  const hands = [...group(changes, ({ hand }) => hand)];
  return hands.map(([hand, own]) => {
    const strings = own.map(({ string: { letter, octave } }) => `${letterName(letter, naming)}${octave}`);
    return hands.length === 1 ? handLabels[hand] : `${strings.join(' ')}: ${handLabels[hand]}`;
  });
};

/** When changes are made that are needed at one time of playing alone: `1st time`; where others stand beside them, each with its string. */
export const tellTimes = (
  {
    changes,
    atOneTime,
    timesPlayed,
  }: {
    readonly changes: readonly LeverNameChange[];
    readonly atOneTime: readonly TimedLeverChange[];
    readonly timesPlayed: number;
  },
  { naming, language }: Told,
): readonly string[] => {
  const { times } = wordsOf({ language }).inWords;
  const byTime = [...group(atOneTime, ({ time }) => time)];
  return byTime.map(([time, own]) => {
    const word = timeInWords(time, { timesPlayed }, times);
    const strings = own.map(({ string: { letter, octave } }) => `${letterName(letter, naming)}${octave}`);
    return own.length === changes.length ? word : `${strings.join(' ')}: ${word}`;
  });
};

/** A marking with lines of small words under it. */
export const underWords = (drawing: Drawing, lines: readonly string[], side: WordsSide): Drawing => {
  if (lines.length === 0) return drawing;
  const outlines = lines.map((line) => textOutline(line, { style: 'italic', sizeUnits: SIZE_VU }));
  const widest = Math.max(...outlines.map(({ width }) => width)) + 2 * PADDING_VU;
  const widthVu = Math.max(widest, drawing.box.widthVu);
  const startOf = (width: number): number => (widthVu - width) * SHARE_LEFT[side];
  const words = outlines.map(({ pathData, width }, i) =>
    drawPath(
      pathData,
      startOf(width + 2 * PADDING_VU) + PADDING_VU,
      drawing.box.heightVu + BASELINE_VU + i * LINE_VU,
      1,
    ),
  );
  const own = roundUnits(startOf(drawing.box.widthVu));
  return {
    box: { widthVu, heightVu: drawing.box.heightVu + lines.length * LINE_VU + PADDING_VU },
    body: `<g transform="translate(${own} 0)">${drawing.body}</g>`,
    words: words.join(''),
    text: [drawing.text, ...lines].join(' '),
    startVu: own + (drawing.startVu ?? 0),
    endVu: own + drawing.box.widthVu,
    ...(drawing.tailVu === undefined ? {} : { tailVu: drawing.tailVu }),
    headVu: drawing.box.heightVu,
  };
};
