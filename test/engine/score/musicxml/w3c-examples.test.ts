import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pitchName } from '../../../../engine/music/pitch.ts';
import { toNumber } from '../../../../engine/music/rational.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { openScore } from '../../../../engine/score/open.ts';

/** The reference examples of the W3C MusicXML 4.0 documentation, one element each; kept outside the project. */
const FOLDER = new URL('../../../../../shared/scores/w3c-examples/', import.meta.url);

const example = (name: string): Score => {
  const opened = openScore(new Uint8Array(readFileSync(new URL(`${name}.musicxml`, FOLDER))), { part: 'P1' });
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const names = (score: Score): string => score.notes.map((note) => pitchName(note.pitch)).join(' ');

describe.skipIf(!existsSync(FOLDER))(
  'W3C reference examples (skipped where ../shared/scores is absent)',
  () => {
    it('harp-pedals: one pedal-tuning a pedal, pedal-alter in semitones', () => {
      expect(example('harp-pedals-element').markings).toMatchObject([
        { form: 'harp-pedals', positions: { D: -1, C: 1, B: -1, E: 0, F: -1, G: 0, A: 1 } },
      ]);
    });

    it('damp: stills from where it stands, not from the note’s start', () => {
      const { damps, notes } = example('damp-element');
      expect(damps.map((damp) => damp.kind)).toEqual(['damp']);
      expect(toNumber(damps[0]!.at)).toBeGreaterThan(toNumber(notes[0]!.onset));
    });

    it('damp-all: stills all strings', () => {
      expect(example('damp-all-element').damps.map((damp) => damp.kind)).toEqual(['damp-all']);
    });

    it('arpeggiate: stands on every note of the chord, bottom to top by default', () => {
      const score = example('arpeggiate-element');
      expect(score.notes.map((note) => note.arpeggio)).toEqual(['plain', 'plain', 'plain', 'plain']);
      expect(new Set(score.notes.map((note) => note.chord)).size).toBe(1);
    });

    it('non-arpeggiate: stands on top and bottom only and holds for the notes between', () => {
      expect(example('non-arpeggiate-element').notes.map((note) => note.arpeggio)).toEqual([
        'none',
        'none',
        'none',
        'none',
      ]);
    });

    it('glissando: sweeps from its start note to its stop note', () => {
      const score = example('glissando-element-single');
      expect(names(score)).toBe('F4 G5');
      expect(score.sweeps).toMatchObject([
        { kind: 'glissando', from: score.notes[0]!.id, to: score.notes[1]!.id },
      ]);
    });

    it('glissando: several at once are told apart by number', () => {
      const { notes, sweeps } = example('glissando-element-multiple');
      const pitchOf = (id: string): string => pitchName(notes.find((note) => note.id === id)!.pitch);
      expect(sweeps.map((sweep) => `${pitchOf(sweep.from)}-${pitchOf(sweep.to)}`)).toEqual([
        'C2-C6',
        'E2-E6',
        'G2-G6',
        'C6-C2',
        'E6-E2',
        'G6-G2',
      ]);
    });

    it('tremolo single: its marks stand on one note', () => {
      expect(example('tremolo-element-single').notes[0]!.tremolo).toMatchObject({ kind: 'single', marks: 3 });
    });

    it('tremolo start and stop: two notes alternate', () => {
      const { notes } = example('tremolo-element-double');
      expect(notes[0]!.tremolo).toMatchObject({ kind: 'between', pair: notes[1]!.id });
      expect(notes[1]!.tremolo).toMatchObject({ kind: 'between', pair: notes[0]!.id });
    });

    it('octave-shift: the pitch in the file is already the one that sounds', () => {
      const score = example('octave-shift-element');
      expect(score.source.text).toContain('<octave-shift');
      expect(names(score)).toBe('C4');
    });
  },
);
