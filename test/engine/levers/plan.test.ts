import { describe, expect, it } from 'vitest';
import { tuneToKey, tuningName } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import type { LeverPlan } from '../../../engine/levers/model.ts';
import { DEFAULT_LEVER_OPTIONS, type LeverOptions } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { toNumber } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { playLevers } from '../../checker/play-levers.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const planFor = (part: SmallPart, options: Partial<LeverOptions> = {}): LeverPlan =>
  planLevers(smallPart(part), { ...DEFAULT_LEVER_OPTIONS, ...options });

const inEFlat = (part: SmallPart, options: Partial<LeverOptions> = {}): LeverPlan =>
  planFor(part, { tuning: LEVER_HARP.tuning, ...options });

const changes = ({ moves }: LeverPlan): string[] =>
  moves.map(({ string, alter, at }) => `${pitchName({ ...string, alter })} at ${toNumber(at)}`);

const codes = ({ findings }: LeverPlan): string[] => findings.map(({ code }) => code);

const initial = (plan: LeverPlan): string[] => plan.initial.map(({ letter, octave }) => `${letter}${octave}`);

describe('the levers of a piece', () => {
  it('stay down in E flat major and are up in E major', () => {
    const flat = inEFlat({ upper: 'Eb4/1 F4/1 G4/1 Ab4/1 | Bb4/1 C5/1 D5/1 Eb5/1', keyFifths: -3 });
    expect(flat.initial).toEqual([]);
    expect(flat.moves).toEqual([]);
    const sharp = inEFlat({ upper: 'E4/1 F#4/1 G#4/1 A4/1 | B4/1 C#5/1 D#5/1 E5/1', keyFifths: 4 });
    expect(initial(sharp)).toEqual(['E4', 'F4', 'G4', 'A4', 'B4', 'C5', 'D5', 'E5']);
    expect(sharp.moves).toEqual([]);
    expect(sharp.summary.playable).toBe(true);
  });

  it('move only on the string that needs it: F sharp in one octave leaves F in the other', () => {
    const plan = inEFlat({ upper: 'F4+F5/1 r/3 | F4+F#5/1 r/3' });
    expect(changes(plan)).toEqual(['F♯5 at 3']);
    expect(codes(plan)).toEqual(['octaves-differ']);
    expect(planPedals(smallPart({ upper: 'F4+F#5/1 r/3' })).summary.playable).toBe(false);
  });

  it('move between the last note of the old pitch and the first of the new, when the left hand rests', () => {
    const plan = inEFlat({
      upper: 'F4/1 C5/1 C5/1 C5/1 | C5/1 C5/1 C5/1 F#4/1',
      lower: 'C3/1 C3/1 C3/1 C3/1 | C3/1 r/2 C3/1',
    });
    expect(changes(plan)).toEqual(['F♯4 at 6']);
    expect(plan.moves[0]?.hand).toBe('left');
    expect(plan.summary.playable).toBe(true);
  });

  it('wait until a held string is silent', () => {
    const plan = inEFlat({ upper: 'F4/3 r/1 | F#4/4' });
    expect(changes(plan)).toEqual(['F♯4 at 3']);
    expect(codes(plan)).toEqual([]);
  });

  it('are told of where they move while their string sounds', () => {
    expect(codes(inEFlat({ upper: 'F4/4 | F#4/4' }))).toContain('ringing-string-moved');
  });

  it('go to the right hand where only that is free, and are not set at all where no hand is', () => {
    const busy = 'C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2';
    const lent = inEFlat({ upper: 'F4/1 r/3 | F#4/4', lower: `${busy} | ${busy}` });
    expect(lent.moves.map(({ hand }) => hand)).toEqual(['right']);
    expect(codes(lent)).toEqual(['other-hand-taken']);
    const quavers = 'C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2';
    const unset = inEFlat({ upper: `F4/1:2 ${quavers} | F#4/4`, lower: `${busy} | ${busy}` });
    expect(codes(unset)).toEqual(['no-free-hand']);
    expect(unset.summary.playable).toBe(false);
  });

  it('are too many for one moment: three levers in a rest in which each hand has time for one', () => {
    const one = { upper: 'F4/1:2 r/1:2 F#4/1', quartersPerMinute: 120 };
    const two = { upper: 'F4+C4/1:2 r/1:2 F#4+C#4/1', quartersPerMinute: 120 };
    const three = { upper: 'F4+C4+C5/1:2 r/1:2 F#4+C#4+C#5/1', quartersPerMinute: 120 };
    const quick = { leverSeconds: 0.2 };
    expect(codes(inEFlat(one, quick))).toEqual([]);
    expect(codes(inEFlat(two, quick))).toEqual(['other-hand-taken']);
    expect(codes(inEFlat(three, quick))).toContain('hand-too-busy');
  });

  it('are set back within a passage that is repeated, so that every pass finds them', () => {
    const score = smallPart({ upper: 'F4/1 r/2 C5/1 | F#4/1 r/3', playOrder: [0, 1, 0, 1] });
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning });
    expect(plan.moves).toHaveLength(2);
    expect(plan.summary.playable).toBe(true);
    const played = playLevers(score, plan, LEVER_HARP, DEFAULT_LEVER_OPTIONS.leverSeconds);
    expect(played.missingNotes).toEqual([]);
    expect(played.changesMade).toBe(4);
  });

  it('fail the independent player where a change is taken out', () => {
    const score = smallPart({ upper: 'F4/1 r/3 | F#4/1 r/3 | F4/4' });
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning });
    expect(plan.moves).toHaveLength(2);
    const without = { ...plan, moves: plan.moves.slice(1) };
    expect(playLevers(score, plan, LEVER_HARP, 0.6).missingNotes).toEqual([]);
    expect(playLevers(score, without, LEVER_HARP, 0.6).missingNotes).toHaveLength(1);
    const early = { ...plan, moves: plan.moves.map((move) => ({ ...move, at: { num: 0, den: 1 }, bar: 0 })) };
    expect(playLevers(score, early, LEVER_HARP, 0.6).hurries.length).toBeGreaterThan(0);
  });
});

describe('a change in a second ending', () => {
  it('comes after the last note that is played before it that time, on either harp', () => {
    const score = smallPart({
      upper: 'F4/4 | F4/1 r/1 F#4/2 | r/2 F#4/2 | F4/4',
      playOrder: [0, 1, 0, 2, 3],
    });
    const lever = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning }).moves;
    for (const moves of [lever, planPedals(score).moves]) {
      const afterOf = (bar: number) => {
        const { window } = moves.find((move) => move.bar === bar && move.window.after !== null)!;
        return toNumber(window.after!.onset);
      };
      expect([afterOf(1), afterOf(2)]).toEqual([4, 0]);
    }
  });
});

describe('the tuning of the open strings', () => {
  it('stays E flat where that serves as well as any', () => {
    const plan = planFor({ upper: 'C4/1 D4/1 E4/1 F4/1 | G4/1 A4/1 B4/1 C5/1' });
    expect(tuningName(plan.tuning)).toBe('E♭ major');
    expect(plan.moves).toEqual([]);
    expect(codes(plan)).toEqual([]);
  });

  it('is another for B major, whose A sharp no string gives beside A natural in E flat tuning', () => {
    const part = { upper: 'B4/1 A#4/1 B4/1 D#5/1 | A#4/1 G#4/1 F#4/1 E4/1', keyFifths: 5 };
    const asked = inEFlat(part);
    // In E flat tuning A sharp is played on the B flat string, which must be B natural beside it.
    expect(asked.respellings.map(({ from, to }) => `${pitchName(from)} ${pitchName(to)}`)).toContain(
      'A♯4 B♭4',
    );
    expect(asked.moves.length).toBeGreaterThan(0);
    const best = planFor(part);
    expect(best.moves).toEqual([]);
    expect(best.respellings).toEqual([]);
    expect(codes(best)).toEqual(['strings-to-retune']);
    expect(best.summary.playable).toBe(true);
  });

  it('is found among all tunings where no key serves without changes', () => {
    // Of the key tunings only C flat gives F flat on its string, and that one has no C sharp.
    const part = { upper: 'C#4/1 D4/1 Eb4/1 Fb4/1' };
    const keys = planFor(part, { tuning: 'best-key' });
    const all = planFor(part, { tuning: 'best' });
    expect(keys.tunings.map(({ changes: count, missingNotes }) => count + missingNotes)).not.toContain(0);
    expect(all.moves).toEqual([]);
    expect(all.summary.playable).toBe(true);
  });

  it('stays as the harp is tuned where retuning would spare no more than a few changes', () => {
    const part = { upper: 'F4/1 r/3 | F#4/1 r/3 | F4/1 r/3' };
    expect(planFor(part).tunings[0]!.name).toBe('E♭ major');
    expect(planFor(part).summary.changes).toBe(2);
    const spared = planFor(part, { tuning: 'best-key' });
    expect(spared.summary.changes).toBe(0);
    // The tuning without changes is told in any case.
    expect(planFor(part).tunings.map(({ changes: count }) => count)).toContain(0);
  });

  it('is what the user says, with what others would cost beside it', () => {
    const plan = planFor({ upper: 'C4/1 D4/1 E4/1 F#4/1' }, { tuning: tuneToKey(-7) });
    expect(plan.tunings[0]).toMatchObject({ name: 'C♭ major' });
    expect(plan.tunings.length).toBeGreaterThan(3);
    expect(plan.tunings[1]!.missingNotes).toBe(0);
  });

  it('plays G sharp on the A flat string where that is all there is, and reports it', () => {
    const plan = inEFlat({ upper: 'G#4/1 Ab4/1 r/2', keyFifths: -3 });
    // G sharp is the G string with its lever up: as written comes first.
    expect(plan.respellings).toEqual([]);
    const sharp = inEFlat({ upper: 'D#4/1 Cb4/1 r/2' });
    expect(sharp.respellings.map(({ to }) => pitchName(to))).toEqual(['B3']);
  });

  it('has no string for a pitch between its own, and names a tuning that has', () => {
    const plan = planFor({ upper: 'A4/1 A#4/1 B4/1 Bb4+A#4/1' }, { tuning: tuneToKey(-7) });
    const missing = plan.findings.find(({ code }) => code === 'no-string-in-tuning');
    expect(missing?.severity).toBe('stop');
    expect(missing?.suggestions[0]).toContain('Tune to B♭ major');
  });
});

describe('a note on a string of another name', () => {
  it('is told once for each pitch and string, with the bar where it begins and how often', () => {
    const plan = planFor(
      { upper: 'A4/1 r/3 | F#4/1 r/1 F#4/1 r/1 | F#4/1 F#5/1 r/2' },
      { tuning: tuneToKey(-7) },
    );
    const told = plan.findings.filter(({ code }) => code === 'played-on-other-string');
    expect(told.map(({ sentence, severity }) => `${severity}: ${sentence}`)).toEqual([
      'note: F♯4 is played on the G4 string, as G♭4, in 3 places from bar 2.',
      'note: F♯5 is played on the G5 string, as G♭5.',
    ]);
    expect(told.map(({ notes }) => notes.length)).toEqual([3, 1]);
    expect(plan.tunings[0]!.respelled).toBe(4);
    expect(plan.summary.playable).toBe(true);
  });

  it('is not told where every note is played on its own string', () => {
    expect(codes(inEFlat({ upper: 'F#4/1 A4/1 r/2' }))).toEqual([]);
  });

  it('that a trill brings in is told too, and leaves the trilled note on its string', () => {
    const plan = planFor({ upper: 'E4/4tr(F#4)' }, { tuning: tuneToKey(-7) });
    expect(plan.findings.map(({ sentence }) => sentence)).toContain(
      'F♯4 is played on the G4 string, as G♭4.',
    );
    expect(plan.respellings).toEqual([]);
  });
});

describe('what a lever harp cannot do', () => {
  it('reports strings that it does not have, and pitches between the semitones', () => {
    const { findings } = inEFlat({ upper: 'C4/1 C7/1 C1/1 C4/1' });
    expect(findings.map(({ code, places }) => [code, places.length])).toEqual([['out-of-range', 2]]);
    expect(codes(planFor({ upper: 'Cq4/4' }))).toEqual(['quarter-tone']);
  });

  it('reports one string asked for two pitches at once, and what leaving one out fixes', () => {
    const clash = { upper: 'F4+F#4/4' };
    const plan = inEFlat(clash);
    expect(codes(plan)).toEqual(['string-in-two-pitches']);
    const omitted = new Set([plan.findings[0]!.fixes[0]!.changes[0]!.note]);
    expect(codes(inEFlat(clash, { omitted }))).toEqual([]);
  });

  it('plays double accidentals on the neighbouring string', () => {
    const plan = inEFlat({ upper: 'Dbb4/4' });
    expect(plan.respellings.map(({ to }) => pitchName(to))).toEqual(['C4']);
    expect(codes(plan)).toEqual(['double-accidental']);
  });

  it('keeps the string that the user chose', () => {
    const score = smallPart({ upper: 'F#4/4' });
    const respelled = new Map([[score.notes[0]!.id, { letter: 'G', alter: -1, octave: 4 } as const]]);
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: tuneToKey(-7), respelled });
    expect(codes(plan)).not.toContain('no-string-in-tuning');
    expect(plan.initial).toEqual([]);
    // It is named on the page and written into the file like any other; that the user knows of it needs no finding.
    expect(plan.respellings.map(({ from, to }) => [pitchName(from), pitchName(to)])).toEqual([
      ['F♯4', 'G♭4'],
    ]);
    expect(codes(plan)).not.toContain('played-on-other-string');
  });

  it('tells of another string where the one that the user chose does not give the pitch, by the written name', () => {
    const score = smallPart({ upper: 'F#4/4' });
    const respelled = new Map([[score.notes[0]!.id, { letter: 'E', alter: 2, octave: 4 } as const]]);
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: tuneToKey(-7), respelled });
    expect(plan.respellings.map(({ from, to }) => [pitchName(from), pitchName(to)])).toEqual([
      ['F♯4', 'G♭4'],
    ]);
    expect(codes(plan)).toContain('played-on-other-string');
  });
});
