import { Scale } from 'tonal';
import { describe, expect, it } from 'vitest';
import { E_FLAT_TUNING, tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { type KeyLevers, leversForKey } from '../../../engine/levers/tuning/key-table.ts';
import { MODES } from '../../../engine/music/keys.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';

/** The notes that the strings give, one of each letter, as tonal writes them. */
const soundingNotes = ({ up, retuned }: KeyLevers): string[] =>
  LETTERS.map((letter) => {
    const open = retuned.find((each) => each.letter === letter)?.to ?? E_FLAT_TUNING.letters[letter];
    const alter = open + (up.includes(letter) ? 1 : 0);
    return letter + (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter));
  }).sort();

const KEYS = MODES.flatMap((mode) => Array.from({ length: 15 }, (_, i) => leversForKey(i - 7, mode)));

const ascii = (name: string): string => name.replace('♭', 'b').replace('♯', '#');

const named = (table: readonly KeyLevers[], withoutRetuning: string): string[] =>
  table
    .filter(({ mode, retuned }) => mode === withoutRetuning && retuned.length === 0)
    .map(({ tonic }) => tonic);

describe('the levers for a key', () => {
  it('give the notes of every major and minor scale (tonal)', () => {
    for (const key of KEYS) {
      const name = key.mode === 'natural minor' ? 'minor' : key.mode;
      const scale = Scale.get(`${ascii(key.tonic)} ${name}`);
      expect(scale.notes, `${key.tonic} ${key.mode}`).toHaveLength(7);
      expect(soundingNotes(key), `${key.tonic} ${key.mode}`).toEqual([...scale.notes].sort());
    }
  });

  it('are all down for E flat major and all up for E major (common practice)', () => {
    expect(leversForKey(-3, 'major')).toEqual({ tonic: 'E♭', mode: 'major', up: [], retuned: [] });
    expect(leversForKey(4, 'major').up).toHaveLength(7);
    expect(leversForKey(4, 'major').retuned).toEqual([]);
  });

  it('serve eight major keys without retuning: E♭ B♭ F C G D A E (facts: cp-lever)', () => {
    expect(named(KEYS, 'major')).toEqual(['E♭', 'B♭', 'F', 'C', 'G', 'D', 'A', 'E']);
  });

  it('serve the harmonic minors of C D E G A without retuning (facts: cp-lever)', () => {
    expect(named(KEYS, 'harmonic minor').sort()).toEqual(['A', 'C', 'D', 'E', 'G']);
  });

  it('are up on A for B major, whose A sharp takes an A string tuned to A natural', () => {
    const { up, retuned } = leversForKey(5, 'major');
    expect(retuned).toEqual([{ letter: 'A', to: 0 }]);
    expect(up).toContain('A');
  });

  it('are all down for the key that the strings are tuned to', () => {
    for (let fifths = -7; fifths <= 7; fifths += 1) {
      const { up, retuned } = leversForKey(fifths, 'major', tuneToKey(fifths));
      expect([...up, ...retuned]).toEqual([]);
    }
  });
});
