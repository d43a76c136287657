import { describe, expect, it } from 'vitest';
import { CONCERT_HARP } from '../../../engine/harp/profiles/concert-harp.ts';
import { formatChange, formatSetting } from '../../../engine/harp/setting.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import type { Plan } from '../../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { listPartEvents } from '../../../engine/proof/part-events.ts';
import type { SourceMarking } from '../../../engine/score/model/markings.ts';
import type { Note } from '../../../engine/score/model/note.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import { asDecided } from './fix-law.ts';

const movesOf = (plan: Plan): string[] =>
  plan.moves.map((m) => `${m.bar + 1}:${rationalKey(m.beat)} ${formatChange(m.letter, m.to)}`);

const codesOf = (plan: Plan): string[] => plan.findings.map((finding) => finding.code);

/** A part whose notes are changed by their place in it. */
const changed = (
  part: SmallPart,
  change: (note: Note, index: number, notes: readonly Note[]) => Partial<Note>,
): Score => {
  const score = smallPart(part);
  return { ...score, notes: score.notes.map((note, i) => ({ ...note, ...change(note, i, score.notes) })) };
};

/** The first two notes are a tremolo between them. */
const withTremolo = (part: SmallPart): Score =>
  changed(part, (_, i, notes) =>
    i > 1 ? {} : { tremolo: { kind: 'between', marks: 3, pair: notes[1 - i]!.id } },
  );

describe('a tremolo between two notes', () => {
  it('needs both from its start to its end: two pitches of one string cannot be', () => {
    const plan = planPedals(withTremolo({ upper: 'C5/1 C#5/1 r/2' }));
    expect(plan.summary.playable).toBe(false);
    expect(plan.findings[0]!.suggestions[0]).toContain('D♭5');
  });

  it('wants both strings from its first stroke on, for the proof of markings too', () => {
    const [first] = listPartEvents(withTremolo({ upper: 'C5/1 Eb5/1 r/2' }), CONCERT_HARP).bars[0]!.onsets;
    expect(first!.notes.map(({ need, seconds }) => [need.letter, seconds])).toEqual([
      ['C', 0],
      ['E', 0],
    ]);
  });

  it('has its second pedal set before it starts', () => {
    const plan = planPedals(withTremolo({ upper: 'C5/1 Eb5/1 r/1 E5/1' }));
    expect([formatSetting(plan.initial), movesOf(plan)]).toEqual(['D♮ C♮ B♮ | E♭ F♮ G♮ A♮', ['1:3 E♮']]);
  });
});

describe('a trill', () => {
  it('sounds no longer than it is written: the pedal is free when it ends', () => {
    const plan = planPedals(smallPart({ upper: 'A4/4tr(Bb4) | r/2 B5/2' }));
    expect(movesOf(plan)).toEqual(['2:2 B♮']);
    expect(codesOf(plan)).toEqual([]);
  });
});

describe('the upper note of a trill', () => {
  it('that clashes is told as that note of that trill, with C♮ in the other hand or on its own string', () => {
    const told = (lower: string) =>
      planPedals(smallPart({ upper: 'Bb5/4tr(Cb6)', lower })).findings.map(({ sentence }) => sentence);
    expect(told('C3/4')).toEqual([expect.stringContaining(' The C♭6 belongs to the trill on B♭5.')]);
    expect(told('C6/4')).toEqual([expect.stringContaining(' The C♭6 belongs to the trill on B♭5.')]);
  });
});

describe('a trill on the highest string', () => {
  it('lacks the string for its upper note, and not the one that is printed', () => {
    const [found] = planPedals(smallPart({ upper: 'G7/4tr(A7)' })).findings;
    expect(found).toMatchObject({
      code: 'out-of-range',
      sentence:
        'The harp has no string for A7: its strings go from C1 to G7. The A7 belongs to the trill on G7.',
    });
  });
});

describe('a note tied into two endings', () => {
  it('sounds as long as it is played, not as long as the print', () => {
    const part = { upper: 'r/2 C#5/2 | ~C#5/1 r/1 C5/2 | C#5/1 r/1 C5/2', playOrder: [0, 1, 0, 2] };
    const score = changed(part, (_, i, notes) => (i === 3 ? { tiedFrom: notes[0]!.id } : {}));
    const dear = planPedals(score).moves.filter(({ bar }) => bar === 0);
    const length = dear.flatMap(({ cost }) => cost).find(({ name }) => name === 'stringSounding');
    // Three beats at most: 100 for the sound and a quarter of that for each second that is left.
    expect(length?.amount ?? 0).toBeLessThanOrEqual(100 * (1 + 3 / 4));
  });
});

describe('strings that a pedal bends while they sound', () => {
  const held = 'E5/4 | ~E5/2 r/2';
  const told = (lower: string, quartersPerMinute: number, playOrder?: readonly number[]) =>
    planPedals(
      smallPart({ upper: held, lower, quartersPerMinute, ...(playOrder ? { playOrder } : {}) }),
    ).findings.filter(({ severity }) => severity === 'warn');

  it('are all named, and those that are over are not', () => {
    const [both, ...none] = told('E3/1:2 r/3:2 E4/2 | Eb4/2 r/2', 60);
    expect(none).toEqual([]);
    expect(both!.sentence).toContain('while E4 and E5 are still sounding');
    expect(both!.suggestions.at(-1)).toBe('Damp E4 and E5 before the change, or shorten them.');
    expect(told('E4/1 r/3 | Eb4/2 r/2', 60)[0]!.sentence).toContain('while E5 is still sounding');
  });

  it('are spared by another string for their notes, all octaves together, where that costs no moves', () => {
    const bent = (score: Score, respelled = DEFAULT_PLAN_OPTIONS.respelled) =>
      planPedals(score, { ...DEFAULT_PLAN_OPTIONS, respelled }).findings.filter(
        ({ code }) => code === 'ringing-string-moved',
      );
    const chords = smallPart({ upper: 'r/4 | E5+G#5/2 Eb5+G5/2', lower: 'r/4 | E2/2 Eb2/2', keyFifths: 4 });
    const [fix, ...others] = bent(chords)[0]!.fixes;
    expect(others).toEqual([]);
    expect(fix!.changes.map(({ kind, from }) => `${kind} ${pitchName(from)}`)).toEqual([
      'respell E♭5',
      'respell E♭2',
    ]);
    expect(bent(chords, asDecided(chords, fix!.changes).respelled)).toEqual([]);
    // The strings that could give F and F♯ are wanted as they are.
    const crowded = smallPart({ upper: 'r/2 F#5+G5/2', lower: 'E3+F3+G3/4' });
    expect(bent(crowded).map(({ fixes }) => fixes)).toEqual([[]]);
  });

  it('are told beside another string that is plucked again too soon', () => {
    const codes = told('r/2 r/1 r/1:2 r/1:4 E4/1:4 | Eb4/2 r/2', 120).map(({ code }) => code);
    expect(codes).toEqual(['string-restruck-fast', 'ringing-string-moved']);
  });

  it('are those of any pass', () => {
    const score = smallPart({
      upper: 'r/1 Eb4/1 r/2 | r/3 E5/1',
      playOrder: [0, 1, 0],
      quartersPerMinute: 240,
    });
    const ringing = { ...score, notes: score.notes.map((note) => ({ ...note, letRing: true })) };
    const bent = planPedals(ringing).findings.filter(({ code }) => code === 'ringing-string-moved');
    expect(bent.flatMap(({ places }) => places.map(({ sentence }) => sentence)).join()).toContain(
      'while E♭4 and E5 are still',
    );
  });
});

describe('a string that is to ring on', () => {
  const part = { upper: 'r/2 r/1 C#5/1 | r/4', lower: 'C2/1 r/3 | r/4' };

  it('is not moved silently', () => {
    const score = changed(part, ({ pitch }) => ({ letRing: pitch.octave === 2 }));
    expect(codesOf(planPedals(smallPart(part)))).toEqual([]);
    expect(codesOf(planPedals(score))).toEqual(['ringing-string-moved']);
  });

  it('is free once a sign damps it', () => {
    const score = changed(part, ({ pitch }) => ({ letRing: pitch.octave === 2 }));
    const at = score.notes.find(({ pitch }) => pitch.octave === 5)!.onset;
    const damped: Score = {
      ...score,
      damps: [{ at: { num: 1, den: 1 }, kind: 'damp-all', staff: null }],
    };
    expect(at).toEqual({ num: 3, den: 1 });
    expect(codesOf(planPedals(damped))).toEqual([]);
  });
});

const settingOfSweep = (score: Score): string => {
  const plan = planPedals(score);
  expect(codesOf(plan).filter((code) => code !== 'glissando-setting-guessed')).toEqual([]);
  return [formatSetting(plan.initial), ...movesOf(plan)].join(', ');
};

describe('the setting of a glissando', () => {
  it('is that of the grace notes that lead to it', () => {
    const score = smallPart({ upper: '(C5) (Db5) (E5) (F5) (Gb5) (Ab5) (Bb5) C5/2> C7/2' });
    expect(settingOfSweep(score)).toBe('D♭ C♮ B♭ | E♮ F♮ G♭ A♭');
    expect(codesOf(planPedals(score))).toEqual([]);
  });

  it('is that of a run that leads to it from the bar before, if the run has all seven letters', () => {
    const run = 'r/1:2 C4/1:2 D4/1:2 Eb4/1:2 F#4/1:2 Gb4/1:2 A4/1:2 B#4/1:2';
    expect(settingOfSweep(smallPart({ upper: `${run} | C5/2> C7/2` }))).toBe('D♮ C♮ B♯ | E♭ F♯ G♭ A♮');
    const part = run.replace('C4', 'r');
    expect(codesOf(planPedals(smallPart({ upper: `${part} | D5/2> D7/2` })))).toContain(
      'glissando-setting-guessed',
    );
  });

  it('is one for two hands that sweep at once', () => {
    const score = smallPart({ upper: 'Eb5/2> Eb7/2', lower: 'C3/2> C5/2' });
    expect(settingOfSweep(score)).toBe('D♮ C♮ B♮ | E♭ F♮ G♮ A♮');
  });

  it('is told of once where it was guessed: for both hands, and for all that follow over the same strings', () => {
    const guessed = (part: Parameters<typeof smallPart>[0]) =>
      planPedals(smallPart(part)).findings.filter(({ code }) => code === 'glissando-setting-guessed');
    const [hands, ...more] = guessed({ upper: 'Eb5/2> Eb7/2', lower: 'C3/2> C5/2' });
    expect(more).toEqual([]);
    expect(hands!.notes).toHaveLength(2);
    expect(hands!.sentence).toBe(
      'D, B, F, G and A are not stated for 2 glissandi; they are taken from the key signature as D♮, B♮, F♮, G♮ and A♮.',
    );
    const waves = guessed({ upper: 'C4/2> C6/2 | C6/2> C4/2 | C4/2> C6/2' });
    expect(waves).toHaveLength(1);
    expect(waves[0]!.sentence).toContain('not stated for 3 glissandi from here to bar 3');
    expect(guessed({ upper: 'C4/2> C6/2 | C6/2> C4/2 | Eb4/2> C6/2' })).toHaveLength(2);
  });

  it('is that of the last full marking in the file, until a note says otherwise', () => {
    const marking = (positions: SourceMarking['positions']): SourceMarking => ({
      ...({} as SourceMarking),
      at: { num: 0, den: 1 },
      bar: 0,
      positions,
    });
    const full = { D: 0, C: 0, B: -1, E: -1, F: 1, G: 0, A: -1 } as const;
    const score = smallPart({ upper: 'r/4 | r/4 | C4/2> C6/2' });
    const marked = { ...score, markings: [marking(full)] };
    expect(settingOfSweep(marked)).toBe('D♮ C♮ B♭ | E♭ F♯ G♮ A♭');
    const other = smallPart({ upper: 'r/4 | F4/1 r/3 | C4/2> C6/2' });
    const contradicted = planPedals({ ...other, markings: [marking(full)] });
    expect(formatSetting(contradicted.initial)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
  });
});

describe('the opening setting of a part that is repeated', () => {
  it('is what the first notes want: the pedal comes back before the repeat, not after it', () => {
    const plan = planPedals(
      smallPart({ upper: 'C5/1 E5/1 G5/1 C6/1 | A5/1 G#5/1 E5/1 A5/1', playOrder: [0, 1, 0, 1] }),
    );
    expect(formatSetting(plan.initial)).toBe('D♮ C♮ B♮ | E♮ F♮ G♮ A♮');
    expect(movesOf(plan).map((move) => move[0])).toEqual(['2', '2']);
  });
});
