import { describe, expect, it } from 'vitest';
import { problemMessage } from '../../../engine/problem.ts';
import { chooseHarp, listHarps, type PartCandidate } from '../../../engine/score/harp-choice.ts';

const part = (id: string, name: string, more: Partial<PartCandidate> = {}): PartCandidate => ({
  id,
  name,
  abbreviation: '',
  staves: 1,
  notes: 10,
  sounds: [],
  midiProgram: null,
  words: () => [],
  hasDiagram: () => false,
  ...more,
});

/** Ids of the parts chosen, joined by `+`; the problem's code if none. */
const chosen = (candidates: readonly PartCandidate[], wanted?: string): string => {
  const result = chooseHarp(candidates, wanted);
  return result.ok ? result.value.parts.join('+') : result.problem.code;
};

const isHarp = (name: string, more: Partial<PartCandidate> = {}): boolean =>
  chosen([part('X', 'Flute'), part('H', name, more)]) === 'H';

describe('a harp is known', () => {
  it.each([
    'Harp',
    'HARPS',
    'Harp 1',
    'Harfe',
    '1. Harfe',
    'Harfen',
    'Harpe',
    'Harpes',
    'Arpa',
    'Arpa I',
    'Hp.',
    'Hrp.',
    'Hfe.',
    'Piano\n(or Harp)',
    'Pedal Harp',
    'Doppelharfe',
    'Celtic harp',
    'Harp in E♭',
  ])('by the name “%s”', (name) => {
    expect(isHarp(name)).toBe(true);
  });

  it.each([
    'Harpsichord',
    'Autoharp',
    'Jaw harp',
    "Jew's Harp",
    'Nyckelharpa',
    'Harmonium',
    'Maultrommel',
    'Aeolian Harp',
    'Äolsharfe',
    'Harp guitar',
    'Mouth Harp',
    'Harpejji',
    'Blues harp',
    'Arpeggione',
    'Sharp',
  ])('but “%s” is another instrument', (name) => {
    expect(isHarp(name)).toBe(false);
  });

  it('by its sound, whatever it is called', () => {
    expect(isHarp('Staff 5', { sounds: ['pluck.harp'] })).toBe(true);
    expect(isHarp('Staff 5', { sounds: ['pluck.celtic-harp'] })).toBe(true);
    expect(isHarp('Staff 5', { sounds: ['Orchestral_Harp'] })).toBe(true);
    expect(isHarp('Staff 5', { sounds: ['pluck.harp-guitar'] })).toBe(false);
  });

  it('by its MIDI program, unless it is called by another harp’s name', () => {
    expect(isHarp('Staff 5', { midiProgram: 47 })).toBe(true);
    expect(isHarp('Autoharp', { midiProgram: 47 })).toBe(false);
  });

  it('by its abbreviation where it has no name', () => {
    expect(isHarp('', { abbreviation: 'Hp.' })).toBe(true);
  });
});

describe('the choice', () => {
  it('prefers the name to the sound number, and both to “Piano (or Harp)”', () => {
    expect(chosen([part('P', 'Piano (or Harp)', { staves: 2 }), part('H', 'Harp')])).toBe('H');
    expect(chosen([part('M', 'Synth', { midiProgram: 47 }), part('H', 'Harfe')])).toBe('H');
  });

  it('takes the first of several harps and names the others', () => {
    const result = chooseHarp([part('A', 'Harp 1'), part('B', 'Harp 2')], undefined);
    expect(result).toMatchObject({ ok: true, value: { parts: ['A'], name: 'Harp 1' } });
    expect(result.ok && result.value.remark).toContain('Harp 2 (B)');
  });

  it('lists the harps of a score by their first part, the one that is taken first', () => {
    expect(listHarps([part('V', 'Violin'), part('A', 'Harp 2'), part('B', 'Harp')])).toEqual([
      { id: 'A', name: 'Harp 2' },
      { id: 'B', name: 'Harp' },
    ]);
    const hands = [part('R', 'Harp RH'), part('L', 'Harp LH'), part('S', 'Harp, small')];
    expect(listHarps(hands).map(({ id }) => id)).toEqual(['R', 'S']);
    expect(listHarps([part('M', 'Synth', { midiProgram: 47 }), part('H', 'Harp')])).toHaveLength(1);
    expect(listHarps([part('V', 'Violin')])).toEqual([]);
  });

  it('says nothing where nothing was left open', () => {
    expect(chooseHarp([part('A', 'Harp'), part('B', 'Flute')], undefined)).toEqual({
      ok: true,
      value: { parts: ['A'], name: 'Harp', remark: null },
    });
  });

  it('takes the only part of a score if it has two staves, with a remark', () => {
    const result = chooseHarp([part('P', 'Piano', { staves: 2 })], undefined);
    expect(result.ok && result.value.remark).toContain('Piano');
    expect(chosen([part('P', 'Piano', { staves: 1 })])).toBe('harp-not-found');
    expect(chosen([part('V', 'Voice'), part('P', 'Piano', { staves: 2 })])).toBe('harp-not-found');
  });

  it('takes a part in which words hand the music to the harp, with a remark', () => {
    const violin = part('V', 'Violin');
    const piano = (...words: readonly string[]) => part('P', 'Piano', { staves: 2, words: () => words });
    for (const words of ['Harfe', 'To Harp', 'muta in Arpa', '(Harpe)', 'HARP.']) {
      expect(chosen([violin, piano('legato', words)]), words).toBe('P');
    }
    const result = chooseHarp([violin, piano('To Harp')], undefined);
    expect(result.ok && result.value.remark).toContain('Piano');
    for (const words of ['quasi arpa', 'like a harp', 'con Harfe und Flöte', 'harpsichord', 'sharp', '']) {
      expect(chosen([violin, piano(words)]), words).toBe('harp-not-found');
    }
    expect(chosen([piano('To Harp'), part('H', 'Harp')])).toBe('H');
  });

  it('takes a part that holds pedal diagrams, before one whose words call for a harp', () => {
    const marked = part('P', 'Piano', { staves: 2, hasDiagram: () => true });
    expect(chosen([part('V', 'Voice'), marked])).toBe('P');
    expect(chosen([part('Q', 'Piano', { words: () => ['To Harp'] }), marked])).toBe('P');
    expect(chosen([marked, part('H', 'Harp')])).toBe('H');
    const result = chooseHarp([part('V', 'Voice'), marked], undefined);
    expect(result.ok && result.value.remark).toBe('Piano has pedal diagrams, so it is read as the harp.');
  });

  it('lists the parts where none is a harp', () => {
    const result = chooseHarp([part('V', 'Vocal\n Line', { notes: 3 })], undefined);
    expect(result).toEqual({
      ok: false,
      problem: { code: 'harp-not-found', parts: [{ id: 'V', name: 'Vocal Line', staves: 1, notes: 3 }] },
    });
  });
});

describe('two hands', () => {
  it.each([
    ['Harp RH', 'Harp LH'],
    ['Harp (right hand)', 'Harp (left hand)'],
    ['Harfe r.H.', 'Harfe l.H.'],
    ['Harfe rechte Hand', 'Harfe linke Hand'],
    ['Harpe, main droite', 'Harpe, main gauche'],
    ['Harpe m.d.', 'Harpe m.g.'],
    ['Arpa mano destra', 'Arpa mano sinistra'],
  ])('“%s” and “%s” are one harp', (right, left) => {
    expect(chosen([part('X', 'Flute'), part('R', right), part('L', left)])).toBe('R+L');
  });

  it('are right above left, in whichever order the score has them', () => {
    expect(chosen([part('L', 'Harp LH'), part('R', 'Harp RH')])).toBe('R+L');
  });

  it('may be asked for by their common name, or by either half', () => {
    const hands = [part('R', 'Harp RH'), part('L', 'Harp LH')];
    expect(chosen(hands, 'harp')).toBe('R+L');
    expect(chosen(hands, 'L')).toBe('R+L');
    const result = chooseHarp(hands, 'Harp RH');
    expect(result.ok && result.value.remark).toContain('one harp');
  });

  it('must stand side by side, on one staff each, and be a harp’s', () => {
    expect(chosen([part('R', 'Harp RH'), part('X', 'Flute'), part('L', 'Harp LH')])).toBe('R');
    expect(chosen([part('R', 'Harp RH', { staves: 2 }), part('L', 'Harp LH')])).toBe('R');
    expect(chosen([part('R', 'Piano RH'), part('L', 'Piano LH'), part('H', 'Harp')])).toBe('H');
    expect(chosen([part('R', 'Harp 1 RH'), part('L', 'Harp 2 LH')])).toBe('R');
  });
});

describe('a harp without notes', () => {
  const silent = { notes: 0 };

  it('leaves its place to another harp that has notes, and is named beside it', () => {
    const result = chooseHarp([part('H1', 'Harp 1', silent), part('H2', 'Harp 2')], undefined);
    expect(result.ok && result.value.parts).toEqual(['H2']);
    expect(result.ok && result.value.remark).toBe(
      'Harp 2 is the harp used here. The score also has Harp 1 (H1, no notes).',
    );
  });

  it('is taken where there is no other, so that the user is told that it is empty', () => {
    expect(chosen([part('X', 'Flute'), part('H', 'Harp', silent)])).toBe('H');
  });

  it('is no harp that can be annotated', () => {
    expect(listHarps([part('H1', 'Harp 1', silent), part('H2', 'Harp 2')])).toEqual([
      { id: 'H2', name: 'Harp 2' },
    ]);
  });

  it('is named as such among the parts that are offered', () => {
    const result = chooseHarp([part('X', 'Flute'), part('H', 'Harp', silent)], 'Oboe');
    expect(result.ok ? '' : problemMessage(result.problem)).toBe(
      'There is no part “Oboe”. The parts are X (Flute, 1 staff), H (Harp, 1 staff, no notes).',
    );
  });
});

describe('a wanted part', () => {
  const parts = [part('P1', 'Flute'), part('P2', 'Piano\n(or Harp)'), part('P3', 'P1')];

  it('is found by id before name, by name without regard to case and white space', () => {
    expect(chosen(parts, 'P1')).toBe('P1');
    expect(chosen(parts, ' piano (OR harp) ')).toBe('P2');
  });

  it('is found by a word that no other part has in its name', () => {
    expect(chosen(parts, 'Piano')).toBe('P2');
    expect(chosen([part('A', 'Harp 1'), part('B', 'Harp 2')], 'Harp')).toBe('unknown-part');
  });

  it('that is unknown, ambiguous or empty is refused with the list of parts', () => {
    expect(chosen(parts, 'Oboe')).toBe('unknown-part');
    expect(chosen([part('A', 'Flute'), part('B', 'flute')], 'Flute')).toBe('unknown-part');
    expect(chosen([part('A', '')], '')).toBe('unknown-part');
  });
});
