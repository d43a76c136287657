import { formatChange, formatSetting } from '../harp/setting.ts';
import { formatBeat } from '../music/format-beat.ts';
import type { Letter } from '../music/pitch.ts';
import { beatAt } from '../score/beats.ts';
import type { Score } from '../score/model.ts';
import type { FixPlace, MarkingFix } from './model.ts';

/** Changes to be made together as one sentence; empty for none. */
export const describeFixes = (score: Score, fixes: readonly MarkingFix[]): string => {
  const said = fixes.map((fix) => describeFix(score, fix)).join(', and ');
  return said === '' ? '' : `${said.slice(0, 1).toUpperCase()}${said.slice(1)}.`;
};

const describeFix = (score: Score, fix: MarkingFix): string => {
  switch (fix.kind) {
    case 'add':
      return `add ${formatChange(fix.letter, fix.position)} at ${describePlace(score, fix)}`;
    case 'add-setting':
      return `print the full setting ${formatSetting(fix.setting)} at ${describePlace(score, fix)}`;
    case 'alter':
      return `print ${formatChange(fix.letter, fix.position)} instead of ${statedBy(score, fix)} at ${placeOfMarking(score, fix.marking)}`;
    case 'move':
      return `move the marking ${statedBy(score, fix)} from ${placeOfMarking(score, fix.marking)} to ${describePlace(score, fix)}`;
    case 'remove':
      return `remove the marking ${statedBy(score, fix)} at ${placeOfMarking(score, fix.marking)}`;
  }
};

const statedBy = (score: Score, { marking, letter }: { marking: number; letter: Letter }): string =>
  formatChange(letter, score.markings[marking]!.positions[letter]!);

export const placeOfMarking = (score: Score, index: number): string => {
  const { bar, at } = score.markings[index]!;
  return describePlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};

const describePlace = (score: Score, { bar, beat }: FixPlace): string => {
  const there = score.bars[bar]!;
  const present = score.notes.filter((note) => note.bar === bar).map(({ onset }) => beatAt(there, onset));
  return `bar ${there.number}, beat ${formatBeat(beat, present)}`;
};
