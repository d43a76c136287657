import {
  type FixPlace,
  formatBeat,
  isPosition,
  type JudgedAttempt,
  type JudgedChange,
  midiOf,
  type Needless,
  nameBarIn,
  nameLever,
  type Score,
  type Stated,
  type StatedPedal,
  type UnreadMarking,
  type WrongSound,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { nameChange, nameInWords, namePitch } from '../sheets/note-words.ts';
import { wordsOf } from '../words/words.ts';

/** How an attempt is told: of which harp, in which language and note names. */
export interface AttemptTelling extends Pick<EngravingOptions, 'language' | 'naming'> {
  readonly harp: JudgedAttempt['harp'];
}

/** What of a score places are told by. */
type Bars = Pick<Score, 'bars' | 'movements'>;

const nameStated = (each: Stated, { naming }: Pick<AttemptTelling, 'naming'>): string => {
  if (!('string' in each)) return nameChange(each.letter, each.position, naming);
  const { string, alter } = each;
  return isPosition(alter)
    ? `${nameChange(string.letter, alter, naming)}${string.octave}`
    : nameLever(string, alter);
};

const nameAll = (stated: readonly Stated[], telling: AttemptTelling): string =>
  stated.map((each) => nameStated(each, telling)).join(', ');

const placeIn = (
  score: Bars,
  { language }: AttemptTelling,
  { bar, beat }: Pick<FixPlace, 'bar' | 'beat'>,
): string => wordsOf({ language }).places.beatInBar(nameBarIn(score)(bar), formatBeat(beat));

/** What a teacher says of a change: where it is, what is thought of it, what sounds instead, and what belongs there. */
export const tellJudged = (score: Bars, change: JudgedChange, telling: AttemptTelling): string => {
  const { marked } = wordsOf(telling);
  const { kind, verdict, sounds, tooQuick, better, needless, stated } = change;
  const isLever = telling.harp === 'lever';
  const opening = isLever ? marked.lever.opening : marked.opening;
  const name = kind === 'opening' ? opening : nameAll(stated, telling);
  const place = (where: Pick<FixPlace, 'bar' | 'beat'>): string => placeIn(score, telling, where);
  const heard = sounds.flatMap((each) => tellHeard(score, each, telling));
  return [
    marked.comment(place(change), name, marked.verdicts[verdict]),
    ...heard,
    ...(tooQuick ? [isLever ? marked.lever.tooQuick : marked.tooQuick] : []),
    ...tellCorrection(score, change, telling),
    ...(verdict === 'missing' && kind === 'opening' ? [marked.write(nameAll(stated, telling))] : []),
    ...(better === null
      ? []
      : [
          marked.better(
            place(better.to),
            (isLever ? { ...marked.why, ...marked.lever.why } : { ...marked.lever.why, ...marked.why })[
              better.why
            ],
          ),
        ]),
    ...(needless === null ? [] : [tellNeedless(score, needless, telling)]),
  ].join(' ');
};

const tellNeedless = (score: Bars, { why, place }: Needless, telling: AttemptTelling): string => {
  const { marked } = wordsOf(telling);
  const where = place === null ? null : placeIn(score, telling, place);
  switch (why) {
    case 'stands':
      return (telling.harp === 'lever' ? marked.lever : marked.needless).stands(where);
    case 'unasked':
      return marked.needless.unasked(where);
    default:
      return marked.needless[why];
  }
};

const tellHeard = (
  score: Bars,
  { pitch, instead, more, place }: WrongSound,
  telling: AttemptTelling,
): readonly string[] => {
  const { marked } = wordsOf(telling);
  const where = placeIn(score, telling, place);
  const note = namePitch(pitch, telling.naming);
  if (instead === null) return [marked.unstated(where, note)];
  const first = marked.sounds(where, note, namePitch(instead, telling.naming));
  if (more === null) return [first];
  const until = more.last.bar === place.bar ? null : nameBarIn(score)(more.last.bar);
  return [first, marked.more(more.notes, until)];
};

const tellCorrection = (
  score: Bars,
  { correction, stated }: JudgedChange,
  telling: AttemptTelling,
): readonly string[] => {
  const { marked } = wordsOf(telling);
  switch (correction?.kind) {
    case undefined:
      return [];
    case 'write':
      return [
        marked.write(nameAll(correction.stated, telling)),
        ...tellSameSound(stated, correction.stated, telling),
        ...(correction.to === undefined ? [] : [marked.move(placeIn(score, telling, correction.to))]),
      ];
    case 'move':
      return [marked.move(placeIn(score, telling, correction.to))];
    case 'strike':
      return [
        ...(correction.against.length === 0
          ? []
          : [marked.contradicts(nameAll(correction.against, telling))]),
        marked.strike,
      ];
  }
};

/** In semitones. */
const OCTAVE = 12;

/** Why a name does not do that sounds the same: its pedal is for other strings. */
const tellSameSound = (
  [written, ...others]: readonly Stated[],
  [meant]: readonly Stated[],
  telling: AttemptTelling,
): readonly string[] => {
  if (written === undefined || meant === undefined || others.length > 0) return [];
  if ('string' in written || 'string' in meant || written.letter === meant.letter) return [];
  if (soundOf(written) !== soundOf(meant)) return [];
  const strings = nameInWords(written.letter, 0, telling.naming);
  const [said, note] = [nameStated(written, telling), nameStated(meant, telling)];
  return [wordsOf(telling).marked.sameSound(said, strings, note)];
};

const soundOf = ({ letter, position }: StatedPedal): number =>
  midiOf({ letter, alter: position, octave: 0 }) % OCTAVE;

/** Words that could not be read as a marking, and where they stand. */
export const tellUnread = (score: Bars, unread: UnreadMarking, telling: AttemptTelling): string =>
  wordsOf(telling).marked.unread(placeIn(score, telling, unread), unread.text);
