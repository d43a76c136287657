import { formatChange, formatSetting, isSetting } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { equals } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Score } from '../score/model/score.ts';
import { formatBeat } from '../words/format-beat.ts';
import type { FixPlace, MarkingFix } from './model.ts';

/** Changes to be made together as one sentence; empty for none. */
export const describeFixes = (score: Score, fixes: readonly MarkingFix[]): string => {
  const said = gatherAdditions(fixes).map((together) => describeTogether(score, together));
  const sentence = said.join(', and ');
  return sentence === '' ? '' : `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}.`;
};

/** Changes of several pedals that are printed as one marking are told as one. */
const gatherAdditions = (
  fixes: readonly MarkingFix[],
): readonly (readonly [MarkingFix, ...MarkingFix[]])[] => {
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

const describeTogether = (score: Score, fixes: readonly [MarkingFix, ...MarkingFix[]]): string => {
  const [fix] = fixes;
  const stated = fixes.map((each) => nameIn(score, each)).join(' ');
  switch (fix.kind) {
    case 'add':
      return `add ${stated} at ${describePlace(score, fix)}`;
    case 'add-setting':
      return `print the full setting ${formatSetting(fix.setting)} at ${describePlace(score, fix)}`;
    case 'alter':
      return `print ${formatChange(fix.letter, fix.position)} instead of ${statedBy(score, fix)} at ${placeOfMarking(score, fix.marking)}`;
    case 'rename':
      return `print ${formatChange(fix.to, fix.position)} instead of ${statedBy(score, fix)} at ${placeOfMarking(score, fix.marking)}`;
    case 'move':
      return `move the marking ${stated} from ${placeOfMarking(score, fix.marking)} to ${describePlace(score, fix)}`;
    case 'move-marking':
      return `move ${nameMarking(score, fix.marking)} from ${placeOfMarking(score, fix.marking)} to ${describePlace(score, fix)}`;
    case 'remove-marking':
      return `remove ${nameMarking(score, fix.marking)} at ${placeOfMarking(score, fix.marking)}`;
    case 'remove':
      return `remove the marking ${stated} at ${placeOfMarking(score, fix.marking)}`;
  }
};

/** What a change states or takes away; empty for one that concerns a whole setting. */
const nameIn = (score: Score, fix: MarkingFix): string => {
  if (fix.kind === 'add') return formatChange(fix.letter, fix.position);
  return fix.kind === 'move' || fix.kind === 'remove' ? statedBy(score, fix) : '';
};

/** A marking as a whole. */
const nameMarking = ({ markings }: Score, index: number): string => {
  const { positions } = markings[index]!;
  if (isSetting(positions)) return 'the full setting';
  const stated = LETTERS.flatMap((letter) => {
    const position = positions[letter];
    return position === undefined ? [] : [formatChange(letter, position)];
  });
  return `the marking ${stated.join(' ')}`;
};

const statedBy = (score: Score, { marking, letter }: { marking: number; letter: Letter }): string =>
  formatChange(letter, score.markings[marking]!.positions[letter]!);

export const placeOfMarking = (score: Score, index: number): string => {
  const { bar, at } = score.markings[index]!;
  return describePlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};

export const describePlace = (score: Score, { bar, beat }: FixPlace): string => {
  const there = score.bars[bar]!;
  const present = score.notes.filter((note) => note.bar === bar).map(({ onset }) => beatAt(there, onset));
  return `bar ${there.number}, beat ${formatBeat(beat, present)}`;
};
