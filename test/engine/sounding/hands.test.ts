import { describe, expect, it } from 'vitest';
import type { Side } from '../../../engine/harp/side.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Note } from '../../../engine/score/model/note.ts';
import { findHands } from '../../../engine/sounding/hands.ts';
import { smallPart } from '../../part-builder.ts';

/** The notes of a part, each with what the claim says of it. */
const notesOf = (
  upper: string,
  lower: string,
  told: Readonly<Record<number, Partial<Note>>> = {},
): readonly Note[] => smallPart({ upper, lower }).notes.map((note, i) => ({ ...note, ...told[i] }));

const handsOf = (notes: readonly Note[]): readonly string[] => {
  const hands = findHands(notes);
  return notes.map(({ id }) => `${hands.get(id)!.hand}${hands.get(id)!.guessed ? '?' : ''}`);
};

const word = (hand: Side): Pick<Note, 'hand'> => ({ hand: { hand, crossing: null } });

describe('the hand that plays a note', () => {
  it('is guessed from the staff where nothing else tells', () => {
    expect(handsOf(notesOf('C5/4', 'C3/4'))).toEqual(['right?', 'left?']);
  });

  it('is the one that words name, to the end of the bar', () => {
    const notes = notesOf('C5/1 D5/1 E5/2 | F5/4', 'r/4 | r/4', { 1: word('left') });
    expect(handsOf(notes)).toEqual(['right?', 'left', 'left', 'right?']);
  });

  it('is the same for a whole chord', () => {
    expect(handsOf(notesOf('C5+E5/4', 'r/4', { 1: word('left') }))).toEqual(['left', 'left']);
  });

  it('changes with the next word in the voice', () => {
    const notes = notesOf('C5/1 D5/1 E5/2', 'r/4', { 0: word('left'), 2: word('right') });
    expect(handsOf(notes)).toEqual(['left', 'left', 'right']);
  });

  it('follows a beam over both staves whose stems all point up to the right, down to the left', () => {
    const under = (stem: 'up' | 'down') => ({ beam: 'b', stem });
    const run = (stem: 'up' | 'down') =>
      notesOf('r/1 C4/1 r/2', 'C3/1 r/3', { 0: under(stem), 1: under(stem) });
    expect(handsOf(run('up'))).toEqual(['right', 'right']);
    expect(handsOf(run('down'))).toEqual(['left', 'left']);
  });

  it('stays with the staff under a beam between the staves, whose stems point to it from both sides', () => {
    const notes = notesOf('r/1 C4/1 r/2', 'C3/1 r/3', {
      0: { beam: 'b', stem: 'up' },
      1: { beam: 'b', stem: 'down' },
    });
    expect(handsOf(notes).every((hand) => hand.endsWith('?'))).toBe(true);
  });

  describe('of a voice that crosses to the other staff', () => {
    const left = { voice: '5' } as const;
    const lower = 'C3/1 E3/1 G3/2';
    const crossing = (more: Partial<Note> = {}, upper = 'C5+E4/4'): readonly Note[] => {
      const notes = notesOf(upper, lower);
      const crossed = notes.map((note) => (note.staff === 2 ? { ...note, ...left } : note));
      const at = crossed.findIndex(({ pitch }) => pitch.letter === 'E' && pitch.octave === 4);
      return crossed.map((note, i) => (i === at ? { ...note, ...left, chord: 'c', ...more } : note));
    };
    const handOfCrossing = (notes: readonly Note[]): string =>
      handsOf(notes)[notes.findIndex(({ pitch }) => pitch.letter === 'E' && pitch.octave === 4)]!;

    it('is that of its own staff, where another voice is at home', () => {
      expect(handOfCrossing(crossing())).toBe('left');
    });

    it('is guessed in a chord or under a beam over both staves', () => {
      const [first] = notesOf('C5+E4/4', lower).filter(({ staff }) => staff === 2);
      expect(handOfCrossing(crossing({ chord: first!.chord }))).toBe('right?');
      const beamed = crossing({ beam: 'b', stem: 'up' });
      const mixed = beamed.map((note) =>
        note.staff === 2 ? { ...note, beam: 'b', stem: 'down' as const } : note,
      );
      expect(handOfCrossing(mixed)).toBe('right?');
    });

    it('is guessed where it has the other staff to itself', () => {
      expect(handOfCrossing(crossing({}, 'E4/4'))).toBe('right?');
    });
  });

  it('follows the stems of two voices on one staff, while the other staff is silent', () => {
    const told = { 0: { voice: '1', stem: 'up' }, 1: { voice: '2', stem: 'down' } } as const;
    expect(handsOf(notesOf('C5+C4/4', 'r/4', told))).toEqual(['right', 'left']);
  });
});

describe('a chord that is too much for the hand of its staff', () => {
  const codesOf = (upper: string, lower: string): readonly string[] =>
    planPedals(smallPart({ upper, lower })).findings.map(({ code }) => code);

  it('is divided between the hands where both can take their share', () => {
    expect(codesOf('C4+E4+G4+B4+D5+F5/4', 'r/4')).toEqual([]);
    expect(codesOf('C3+C5/4', 'r/4')).toEqual([]);
  });

  it('is told where the other hand has its own notes already, and that the hand is a guess', () => {
    const { findings } = planPedals(smallPart({ upper: 'C4+E4+G4+B4+D5/4', lower: 'C2+E2+G2+C3/4' }));
    expect(findings.map(({ code }) => code)).toEqual(['too-many-notes-in-hand']);
    expect(findings[0]!.sentence).toMatch(/guessed from the staff/);
  });

  it('is told, without a guess, where words give it to one hand', () => {
    const score = smallPart({ upper: 'C4+E4+G4+B4+D5/4', lower: 'r/4' });
    const notes = score.notes.map((note, i) => (i === 0 ? { ...note, ...word('right') } : note));
    const [finding] = planPedals({ ...score, notes }).findings;
    expect(finding!.code).toBe('too-many-notes-in-hand');
    expect(finding!.sentence).not.toMatch(/guessed/);
    expect(finding!.suggestions).toEqual([
      'Let the left hand take C4.',
      'Break the chord, or leave out 1 note.',
    ]);
    expect(codesOf('E4+G4+B4+D5/4', 'C4/4')).toEqual([]);
  });

  it('is not given to the other hand where that has no finger left, or no reach', () => {
    const { findings } = planPedals(smallPart({ upper: 'C4+E4+G4+B4+D5/4', lower: 'C2+E2+G2+C3/4' }));
    expect(findings[0]!.suggestions).toEqual(['Break the chord, or leave out 1 note.']);
  });

  it('is told of passages with the guess, and of one string for both hands', () => {
    const { findings } = planPedals(smallPart({ upper: 'C4/4 | C4/4', lower: 'C4+G3/4 | C4+A3/4' }));
    expect(findings.map(({ code, sentence }) => `${code}: ${sentence}`)).toEqual([
      'string-for-both-hands: Both hands have to pluck one string at the same time, in 2 places. The hands are guessed from the staves.',
    ]);
  });
});
