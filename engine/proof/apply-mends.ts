import type { Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { SourceMarking } from '../score/model.ts';
import type { Mend, MendPlace } from './model.ts';

/**
 * The markings as they would be with some changes made together. All indices are of the markings as given; a marking
 * that states nothing more is left out, and a new one stands behind those of its moment.
 */
export const applyMends = (
  markings: readonly SourceMarking[],
  mends: readonly Mend[],
): readonly SourceMarking[] => {
  const altered = [...markings];
  const setting: SourceMarking[] = [];
  const added: SourceMarking[] = [];
  for (const mend of mends) {
    switch (mend.kind) {
      case 'add':
        added.push(printAt(mend, { [mend.letter]: mend.position }));
        break;
      case 'add-setting':
        setting.push(printAt(mend, mend.setting));
        break;
      case 'alter': {
        const old = altered[mend.marking]!;
        const positions = { ...old.positions, [mend.letter]: mend.position };
        altered[mend.marking] = { ...old, positions };
        break;
      }
      case 'move':
        added.push(printAt(mend, { [mend.letter]: altered[mend.marking]!.positions[mend.letter]! }));
        altered[mend.marking] = withoutLetter(altered[mend.marking]!, mend.letter);
        break;
      case 'remove':
        altered[mend.marking] = withoutLetter(altered[mend.marking]!, mend.letter);
        break;
    }
  }
  return [...setting, ...altered, ...added]
    .filter(({ positions }) => Object.keys(positions).length > 0)
    .sort((a, b) => compare(a.at, b.at));
};

const withoutLetter = (marking: SourceMarking, letter: Letter): SourceMarking => {
  const { [letter]: _, ...positions } = marking.positions;
  return { ...marking, positions };
};

const printAt = ({ at, bar }: MendPlace, positions: SourceMarking['positions']): SourceMarking => ({
  at,
  bar,
  span: { start: 0, end: 0 },
  form: 'words',
  positions,
  ahead: false,
  text: '',
});
