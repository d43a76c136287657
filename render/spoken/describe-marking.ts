import { type Marking, type PedalChange, returnTime } from '../markings/markings.ts';
import type { Language } from '../words/language.ts';
import { type SpokenLanguage, speakIn } from './spoken-language.ts';

/** A marking for pedals in words, for screen readers and tool tips. */
export const describeMarking = (marking: Marking, language: Language = 'english'): string => {
  const speech = speakIn(language);
  const { spoken, inWords } = speech.words;
  const { onReturn } = marking;
  const back =
    onReturn.length === 0 ? [] : [`${returnTime(marking, inWords.times)} ${joinChanges(onReturn, speech)}`];
  const how = marking.withNote ? [spoken.withNote] : [];
  if (marking.kind === 'setting') {
    const first = marking.firstTimeOnly ? [inWords.times.first] : [];
    return [spoken.setting(speech.names.setting(marking.setting)), ...how, ...first, ...back].join(', ');
  }
  const changes = [...marking.right, ...marking.left];
  const early = changes.filter(({ letter }) => marking.cannotWait.includes(letter));
  const named = early.length === changes.length ? '' : `${joinChanges(early, speech)}: `;
  const where = early.length === 0 ? [] : [`${named}${inWords.here}`];
  const waiting = changes.filter(({ letter }) => marking.lettersWithNote.includes(letter));
  const ofThem = waiting.length === changes.length ? '' : `${joinChanges(waiting, speech)}: `;
  const when = how.map((each) => `${ofThem}${each}`);
  const now = changes.length === 0 ? [] : [joinChanges(changes, speech), ...when, ...where];
  return spoken.change([...now, ...back].join(', '));
};

const joinChanges = (changes: readonly PedalChange[], { names, words }: SpokenLanguage): string =>
  words.spoken.together(changes.map(names.change));
