import { formatChange, formatSetting } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { tellBeat } from '../music/tell-beat.ts';
import type { Score } from '../score/model.ts';
import { beatAt } from '../time/moments.ts';
import type { Mend, MendPlace } from './model.ts';

/** Changes to be made together as one sentence; empty for none. */
export const describeMends = (score: Score, mends: readonly Mend[]): string => {
  const said = mends.map((mend) => describeMend(score, mend)).join(', and ');
  return said === '' ? '' : `${said.slice(0, 1).toUpperCase()}${said.slice(1)}.`;
};

const describeMend = (score: Score, mend: Mend): string => {
  switch (mend.kind) {
    case 'add':
      return `add ${formatChange(mend.letter, mend.position)} at ${describePlace(score, mend)}`;
    case 'add-setting':
      return `print the full setting ${formatSetting(mend.setting)} at ${describePlace(score, mend)}`;
    case 'alter':
      return `print ${formatChange(mend.letter, mend.position)} instead of ${statedBy(score, mend)} at ${placeOfMarking(score, mend.marking)}`;
    case 'move':
      return `move the ${statedBy(score, mend)} at ${placeOfMarking(score, mend.marking)} to ${describePlace(score, mend)}`;
    case 'remove':
      return `leave out the ${statedBy(score, mend)} at ${placeOfMarking(score, mend.marking)}`;
  }
};

const statedBy = (score: Score, { marking, letter }: { marking: number; letter: Letter }): string =>
  formatChange(letter, score.markings[marking]!.positions[letter]!);

export const placeOfMarking = (score: Score, index: number): string => {
  const { bar, at } = score.markings[index]!;
  return describePlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};

const describePlace = (score: Score, { bar, beat }: MendPlace): string => {
  const there = score.bars[bar]!;
  const present = score.notes.filter((note) => note.bar === bar).map(({ onset }) => beatAt(there, onset));
  return `bar ${there.number}, beat ${tellBeat(beat, present)}`;
};
