import { compare } from '../../../music/rational.ts';
import type { HandWords } from '../../model/note.ts';
import type { SharingMark } from '../../model/texts.ts';
import { notesWithHandWords, readHandWords } from '../../words/hand-words.ts';
import { readSharingWords } from '../../words/sharing-words.ts';
import type { Control, NoteDraft } from '../draft.ts';
import { wordsOf } from '../text.ts';
import { comparePlayingOrder, type MarkPoint, type MarkTimes } from './mark-times.ts';
import { isHarps, WORDS } from './markings.ts';

/** Words at the harp's staves, and where they stand. */
export interface HarpWords {
  readonly control: Control;
  readonly start: MarkPoint;
  readonly text: string;
}

/** @param alone whether the harp is the whole score, so that words without a staff are the harp's */
export const findHarpWords = (
  controls: readonly Control[],
  times: MarkTimes,
  alone: boolean,
  source: string,
): readonly HarpWords[] =>
  controls.flatMap((control) => {
    if (!WORDS.has(control.element.name)) return [];
    const start = times.startOf(control);
    if (start === null || !isHarps(control, start, times, alone)) return [];
    return [{ control, start, text: wordsOf(control.element, source) }];
  });

/** What words say of the hand that plays, by the notes that they stand at. */
export const findHandWords = (
  words: readonly HarpWords[],
  notes: readonly NoteDraft[],
  times: MarkTimes,
  harpStaves: readonly string[],
): ReadonlyMap<NoteDraft, HandWords> => {
  const read = words.flatMap(({ control, start, text }) => {
    const said = readHandWords(text);
    return said === null ? [] : [{ control, start, said }];
  });
  const named = read.flatMap(({ start, said }) => start.named.map((note) => [note, said] as const));
  const placed = read
    .filter(({ start }) => !start.namesNote)
    .flatMap(({ control, start, said }) =>
      times
        .stavesOf(control, start)
        .map((n) => ({ bar: start.bar, at: start.onset, staff: harpStaves.indexOf(n) + 1, words: said })),
    );
  return new Map([...notesWithHandWords(notes.toSorted(comparePlayingOrder), placed), ...named]);
};

/** What words say of the players who share the part, in order. */
export const findSharing = (
  words: readonly HarpWords[],
  times: MarkTimes,
  harpStaves: readonly string[],
): readonly SharingMark[] =>
  words
    .flatMap(({ control, start, text }): SharingMark[] => {
      const said = readSharingWords(text);
      if (said === null) return [];
      const [only, ...others] = times.stavesOf(control, start);
      const staff = only === undefined || others.length > 0 ? 0 : harpStaves.indexOf(only) + 1;
      const place = { at: start.onset, bar: start.bar, staff: staff || null, span: control.element.span };
      return [{ ...place, ...said, text }];
    })
    .sort((a, b) => compare(a.at, b.at));
