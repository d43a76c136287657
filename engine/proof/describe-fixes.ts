import { nameTextPlace, type TextPlace } from '../findings/catalogue/entry.ts';
import { nameChange, type PedalAt } from '../findings/note-names.ts';
import { type LeverAt, nameLeverAt } from '../harp/lever-name.ts';
import type { HarpString } from '../harp/profile.ts';
import { nameString } from '../harp/scordatura.ts';
import { formatSetting, isSetting, type Setting } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { equals } from '../music/rational.ts';
import type { NonEmpty } from '../non-empty.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Score } from '../score/model/score.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { formatBeat } from '../words/format-beat.ts';
import type { FixPlace, MarkingFix } from './model.ts';

/** How notes are named in the sentences. */
export interface FixNames {
  readonly change: (change: PedalAt) => string;
  readonly setting: (setting: Setting) => string;
  readonly lever: (lever: LeverAt) => string;
  readonly string: (string: HarpString) => string;
}

/** What fixes say; each is a clause, and all that are made together are one sentence. */
export interface FixSentences {
  readonly place: (bar: string, beat: string) => string;
  readonly fullSetting: string;
  readonly marking: (names: string) => string;
  readonly add: (names: string, place: string) => string;
  readonly addSetting: (setting: string, place: string) => string;
  readonly print: (name: string, instead: string, place: string) => string;
  readonly move: (marking: string, from: string, to: string) => string;
  readonly remove: (marking: string, place: string) => string;
  readonly and: string;
}

/** A language in which fixes are told. */
export interface FixWords<Sentences> {
  readonly names: FixNames;
  readonly sentences: Sentences;
}

export const ENGLISH_FIX_NAMES: FixNames = {
  change: nameChange,
  setting: formatSetting,
  lever: nameLeverAt,
  string: nameString,
};

/** The engine’s own words. */
export const ENGLISH_FIXES = {
  place: (bar, beat) => nameTextPlace({ bar, beat }),
  fullSetting: 'the full setting',
  marking: (names) => `the marking ${names}`,
  add: (names, place) => `add ${names} at ${place}`,
  addSetting: (setting, place) => `print the full setting ${setting} at ${place}`,
  print: (name, instead, place) => `print ${name} instead of ${instead} at ${place}`,
  move: (marking, from, to) => `move ${marking} from ${from} to ${to}`,
  remove: (marking, place) => `remove ${marking} at ${place}`,
  and: ', and ',
} as const satisfies FixSentences;

const ENGLISH: FixWords<FixSentences> = { names: ENGLISH_FIX_NAMES, sentences: ENGLISH_FIXES };

/** Changes to be made together as one sentence; empty for none. */
export const describeFixes = (
  score: Score,
  fixes: readonly MarkingFix[],
  words: FixWords<FixSentences> = ENGLISH,
): string =>
  joinClauses(
    gatherAdditions(fixes).map((together) => describeTogether(score, together, words)),
    words.sentences,
  );

/** Clauses as one sentence; none for no clause. */
export const joinClauses = (clauses: readonly string[], { and }: Pick<FixSentences, 'and'>): string => {
  const sentence = clauses.join(and);
  return sentence === '' ? '' : `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}.`;
};

/** Changes of several pedals that are printed as one marking are told as one. */
const gatherAdditions = (fixes: readonly MarkingFix[]): readonly NonEmpty<MarkingFix>[] => {
  const groups: [MarkingFix, ...MarkingFix[]][] = [];
  for (const fix of fixes) {
    const known = groups.find(([first]) => isTogether(first, fix));
    if (known === undefined) groups.push([fix]);
    else known.push(fix);
  }
  return groups;
};

const isTogether = (one: MarkingFix, other: MarkingFix): boolean => {
  if (one.kind === 'add' && other.kind === 'add') return equals(one.at, other.at);
  if (one.kind === 'move' && other.kind === 'move')
    return one.marking === other.marking && equals(one.at, other.at);
  return one.kind === 'remove' && other.kind === 'remove' && one.marking === other.marking;
};

const describeTogether = (
  score: Score,
  fixes: NonEmpty<MarkingFix>,
  { names, sentences }: FixWords<FixSentences>,
): string => {
  const [fix] = fixes;
  const stated = fixes.map((each) => nameIn(score, each, names)).join(' ');
  const placeOf = ({ bar, beat }: TextPlace): string => sentences.place(bar, beat);
  const here = (place: FixPlace): string => placeOf(textPlace(score, place));
  const there = (marking: number): string => placeOf(placeOfMarking(score, marking));
  const whole = (marking: number): string => nameMarking(score, marking, { names, sentences });
  switch (fix.kind) {
    case 'add':
      return sentences.add(stated, here(fix));
    case 'add-setting':
      return sentences.addSetting(names.setting(fix.setting), here(fix));
    case 'alter':
      return sentences.print(names.change(fix), statedBy(score, fix, names), there(fix.marking));
    case 'rename': {
      const { to: letter, position } = fix;
      return sentences.print(
        names.change({ letter, position }),
        statedBy(score, fix, names),
        there(fix.marking),
      );
    }
    case 'move':
      return sentences.move(sentences.marking(stated), there(fix.marking), here(fix));
    case 'move-marking':
      return sentences.move(whole(fix.marking), there(fix.marking), here(fix));
    case 'remove-marking':
      return sentences.remove(whole(fix.marking), there(fix.marking));
    case 'remove':
      return sentences.remove(sentences.marking(stated), there(fix.marking));
  }
};

/** What a change states or takes away; empty for one that concerns a whole setting. */
const nameIn = (score: Score, fix: MarkingFix, names: FixNames): string => {
  if (fix.kind === 'add') return names.change(fix);
  return fix.kind === 'move' || fix.kind === 'remove' ? statedBy(score, fix, names) : '';
};

/** A marking as a whole. */
const nameMarking = (
  { markings }: Score,
  index: number,
  { names, sentences }: FixWords<FixSentences>,
): string => {
  const { positions } = markings[index]!;
  if (isSetting(positions)) return sentences.fullSetting;
  const stated = LETTERS.flatMap((letter) => {
    const position = positions[letter];
    return position === undefined ? [] : [names.change({ letter, position })];
  });
  return sentences.marking(stated.join(' '));
};

const statedBy = (
  score: Score,
  { marking, letter }: { marking: number; letter: Letter },
  names: FixNames,
): string => names.change({ letter, position: score.markings[marking]!.positions[letter]! });

export const placeOfMarking = (score: Score, index: number): TextPlace => {
  const { bar, at } = score.markings[index]!;
  return textPlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};

export const textPlace = (score: Score, { bar, beat }: FixPlace): TextPlace => {
  const there = score.bars[bar]!;
  const present = score.notes.filter((note) => note.bar === bar).map(({ onset }) => beatAt(there, onset));
  return { bar: nameBarIn(score)(bar), beat: formatBeat(beat, present) };
};
