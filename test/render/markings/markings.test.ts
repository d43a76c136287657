import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatChange, formatSetting } from '../../../engine/harp/setting.ts';
import { rational, toNumber } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { toldAtIn } from '../../../engine/time/told-at.ts';
import { drawMarking } from '../../../render/draw/draw-marking.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { chooseMarkings, type Marking } from '../../../render/markings/markings.ts';
import { planAsTold } from '../../../render/markings/plan-as-told.ts';
import { drawPrinted } from '../../../render/markings/printed-markings.ts';
import { movesToldElsewhere } from '../../../render/markings/told-elsewhere.ts';
import { findTuningNote, tuningLines } from '../../../render/markings/tuning-note.ts';
import { entriesAfterRests } from '../../../render/pages/entries-after-rests.ts';
import { printingRemarks } from '../../../render/remarks.ts';
import { describeMarking } from '../../../render/spoken/describe-marking.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { smallPart } from '../../part-builder.ts';

/** What is printed, in words: `bar.beat setting D♮ …` or `bar.beat C♯/B♭`. */
const printed = (score: Score, choice: EngravingChoice = {}, reminders: readonly number[] = []): string[] =>
  chooseMarkings(score, planPedals(score), completeEngraving(choice), reminders).map(inWords);

const inWords = (marking: Marking): string => {
  const { num, den } = marking.beat;
  const place = `${marking.bar + 1}.${num / den}`;
  if (marking.kind === 'setting') return `${place} setting ${formatSetting(marking.setting)}`;
  const rows = [marking.right, marking.left].map((row) =>
    row.map(({ letter, position }) => formatChange(letter, position)).join(' '),
  );
  return `${place} ${rows.filter((row) => row !== '').join('/')}`;
};

describe('a setting in the last bars of a long rest', () => {
  const score = smallPart({ upper: `C4/4 | ${'r/4 | '.repeat(26)}C4/4` });
  const { settings } = completeEngraving({});
  const forgottenAfter = (bar: number): boolean[] => {
    const all = chooseMarkings(score, planPedals(score), completeEngraving({}));
    const told = all.filter(({ kind }) => kind === 'setting').map((marking) => ({ ...marking, bar }));
    return entriesAfterRests(score, told, { density: 'both', settings }).map(
      ({ isForgotten }) => isForgotten,
    );
  };

  it('is in sight on the next line still, where it stands near the entry', () => {
    expect([forgottenAfter(1), forgottenAfter(25)]).toEqual([[true], [false]]);
  });
});

const withRehearsalAt = (score: Score, bar: number): Score => ({
  ...score,
  landmarks: [{ at: score.bars[bar]!.onset, bar, kind: 'rehearsal', text: 'A' }],
});

const NATURAL = 'D♮ C♮ B♮ | E♮ F♮ G♮ A♮';

describe('full settings', () => {
  it('stand before the first note', () => {
    expect(printed(smallPart({ upper: 'C4/1 D4/1 E4/2' }))).toEqual([`1.1 setting ${NATURAL}`]);
  });

  it('take the place of three changes within one silence, at the last bar of rest', () => {
    const three = smallPart({ upper: 'C4+D4+F4/4 | r/4 | r/4 | C#4+D#4+F#4/4' });
    expect(printed(three)).toEqual([`1.1 setting ${NATURAL}`, '2.1 setting D♯ C♯ B♮ | E♮ F♯ G♮ A♮']);
  });

  it('are left to the single changes where that is switched off', () => {
    const three = smallPart({ upper: 'C4+D4+F4/4 | r/4 | r/4 | C#4+D#4+F#4/4' });
    const choice = { settings: { threeChanges: false } };
    expect(printed(three, choice)).toEqual([`1.1 setting ${NATURAL}`, '2.1 F♯/D♯ C♯']);
  });

  it('are not printed where each foot has no time before the next note', () => {
    // A rest of an eighth at 120: a quarter of a second, in which a foot moves once.
    const score = smallPart({
      upper: 'C4+D4+F4/7:2 r/1:2 | C#4+D#4+F#4/4',
      quartersPerMinute: 120,
    });
    const settings = printed(score).filter((each) => each.includes('setting'));
    expect(settings).toEqual([`1.1 setting ${NATURAL}`]);
  });

  it('come again after four bars of rest, not after three', () => {
    const four = smallPart({ upper: 'C4/4 | r/4 | r/4 | r/4 | r/4 | C4/4' });
    const three = smallPart({ upper: 'C4/4 | r/4 | r/4 | r/4 | C4/4' });
    expect(printed(four)).toEqual([`1.1 setting ${NATURAL}`, `2.1 setting ${NATURAL}`]);
    expect(printed(three)).toEqual([`1.1 setting ${NATURAL}`]);
    expect(printed(three, { settings: { afterRestBars: 3 } })).toHaveLength(2);
    expect(printed(four, { settings: { afterRestBars: null } })).toHaveLength(1);
  });

  it('come again at a rehearsal mark', () => {
    const score = withRehearsalAt(smallPart({ upper: 'C4/4 | D4/4 | E4/4 | F4/4' }), 2);
    expect(printed(score)).toEqual([`1.1 setting ${NATURAL}`, `3.1 setting ${NATURAL}`]);
    expect(printed(score, { settings: { rehearsalMarks: false } })).toHaveLength(1);
  });

  it('stand at the start of a new movement, even one bar on', () => {
    const score = { ...smallPart({ upper: 'C4/4 | D4/4 | E4/4' }), movements: [1] };
    expect(printed(score)).toEqual([`1.1 setting ${NATURAL}`, `2.1 setting ${NATURAL}`]);
    expect(printed(score, { settings: { movements: false } })).toHaveLength(1);
    expect(printed(score, { density: 'changes' }).join()).not.toContain('2.1');
  });

  it('are not repeated one bar on when nothing has moved', () => {
    const score = withRehearsalAt(smallPart({ upper: 'C4/4 | D4/4 | E4/4' }), 1);
    expect(printed(score)).toEqual([`1.1 setting ${NATURAL}`]);
  });

  it('stand before a glissando', () => {
    const score = smallPart({ upper: 'C4/4 | D4/4 | C4/2> C6/2' });
    expect(printed(score)).toEqual([`1.1 setting ${NATURAL}`, `3.1 setting ${NATURAL}`]);
    expect(printed(score, { settings: { glissandi: false } })).toHaveLength(1);
  });

  it('remind of the setting in force at bars that the layout names', () => {
    const score = smallPart({ upper: 'C4/4 | C#4/4 | E4/4' });
    expect(printed(score, {}, [2]).at(-1)).toBe('3.1 setting D♮ C♯ B♮ | E♮ F♮ G♮ A♮');
  });

  it('tell which pedals stand differently from the setting before, and those alone', () => {
    const there = smallPart({ upper: 'C4+F4/4 | C#4/4 | C4/4 | F#4/4 | E4/4' });
    const marked = chooseMarkings(there, planPedals(there), completeEngraving(), [4]);
    // C went to sharp and came back: it has not changed.
    expect(marked.at(-1)).toMatchObject({ kind: 'setting', changed: ['F'] });
  });
});

describe('changes', () => {
  it('under one joined rest are one marking', () => {
    const score = smallPart({ upper: 'C4+D4/4 | r/4 | r/4 | C#4+D#4/4' });
    expect(printed(score)).toEqual([`1.1 setting ${NATURAL}`, '2.1 D♯ C♯']);
  });

  it('in a bar of rest that is not joined stand at its start, where the plan tells them', () => {
    const score = smallPart({ upper: 'C4+D4/4 | r/4 | r/4 | C#4+D#4/4' });
    expect(printed(score, { multiBarRests: false }).slice(1)).toEqual(['3.1 D♯ C♯']);
    expect(planPedals(score).moves.map(({ bar, beat }) => [bar, beat.num / beat.den])).toEqual([
      [2, 1],
      [2, 1],
    ]);
  });

  it.each([true, false])(
    'that are pinned to a beat of a bar of rest stand there (rests joined: %s)',
    (multiBarRests) => {
      const score = smallPart({ upper: 'C4+D4/4 | r/4 | r/4 | C#4+D#4/4' });
      const pins = [{ kind: 'move', letter: 'C', position: 1, at: rational(6) }] as const;
      const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, pins });
      const markings = chooseMarkings(score, plan, completeEngraving({ multiBarRests }), []);
      expect(markings.map(inWords)).toContain('2.3 C♯');
      expect(plan.moves.find(({ letter }) => letter === 'C')!.beat).toEqual(rational(3));
    },
  );

  it('of a silence are not told together across the place where a repeat jumps', () => {
    const upper = 'C4+D4+F4/4 | r/4 | r/4 | C#4+D#4+F#4/4';
    const repeated = smallPart({ upper, playOrder: [0, 1, 0, 1, 2, 3] });
    expect(printed(repeated)[1]).toMatch(/^3/);
  });

  it('alone are printed where settings are not wanted', () => {
    const score = withRehearsalAt(smallPart({ upper: 'C4/4 | r/4 | C#4/4 | D4/4' }), 3);
    expect(printed(score, { density: 'changes' })).toEqual([`1.1 setting ${NATURAL}`, '2.1 C♯']);
  });

  it('are left out where settings alone are wanted, and still count in the next setting', () => {
    const score = withRehearsalAt(smallPart({ upper: 'C4/4 | C#4/4 | E4/4 | D4/4' }), 3);
    expect(printed(score, { density: 'settings' })).toEqual([
      `1.1 setting ${NATURAL}`,
      '4.1 setting D♮ C♯ B♮ | E♮ F♮ G♮ A♮',
    ]);
  });
});

describe('the moves that sheets tell', () => {
  it.each([
    'C4+D4+F4/4 | r/4 | r/4 | r/4 | C#4+D#4+F#4/4',
    'C4+D4/4 | r/4 | r/4 | C#4+D#4/4 | G4/1 G#4/1 r/2 | A4/2 Ab4/2',
    'C4/1 D4/1 r/2 | r/4 | C#4/4',
  ])('are where the part has a marking (%s)', (upper) => {
    const score = smallPart({ upper });
    const plan = planPedals(score);
    const engraving = completeEngraving({});
    const marked = chooseMarkings(score, plan, engraving, []).map(({ at }) => toNumber(at));
    const told = planAsTold(score, plan, engraving).moves;
    expect(told).toHaveLength(plan.moves.length);
    for (const move of told) expect(marked).toContain(toNumber(toldAtIn(score)(move)));
    const elsewhere = movesToldElsewhere(score, plan, engraving);
    plan.moves.forEach((move, index) => {
      const at = elsewhere.find((each) => each.move === index)?.at ?? toldAtIn(score)(move);
      expect(marked).toContain(toNumber(at));
    });
  });

  it('are counted in the passage in which they are told, while its grade stays that of the plan', () => {
    const score = smallPart({ upper: 'C4+D4+F4+G4+A4/4 | r/4 | r/2 C#4+D#4+F#4+G#4+A#4/2' });
    const plan = planPedals(score);
    const { summary, moves } = planAsTold(score, plan, completeEngraving({}));
    const counted = summary.difficulty.passages.map(({ from, until, measures }) => [
      measures.changes,
      moves.filter(({ bar }) => bar >= from && bar <= until).length,
    ]);
    for (const [told, printed] of counted) expect(told).toBe(printed);
    const grades = (of: typeof summary) => of.difficulty.passages.map(({ grade }) => grade);
    expect(grades(summary)).toEqual(grades(plan.summary));
    const planned = plan.summary.difficulty.passages.map(({ measures }) => measures.changes);
    expect(counted.map(([told]) => told)).not.toEqual(planned);
  });
});

describe('changes at the notes that need them', () => {
  const note: EngravingChoice = { marksAt: 'note' };

  it('stand there, and where the foot moves otherwise: the plan is the same', () => {
    const score = smallPart({ upper: 'C4/1 r/3 | D4/4 | C#4/4' });
    expect(printed(score)[1]).not.toBe('3.1 C♯');
    expect(printed(score, note)).toEqual([`1.1 setting ${NATURAL}`, '3.1 C♯']);
  });

  it('stay before a repeat sign between the foot and the note', () => {
    const upper = 'C4/1 D4/3 | E4/4 | C#4/4';
    const score = smallPart({ upper, playOrder: [0, 1, 2, 2] });
    expect(printed(score, note)).toEqual(printed(score));
  });

  it('stand where the foot moves, which is told, where it cannot make them all at the note', () => {
    const score = smallPart({ upper: 'C4+D4/1 r/3 | E4/4 | C#4+D#4/4' });
    const plan = planPedals(score);
    expect(printed(score, note)).toEqual(printed(score));
    const early = chooseMarkings(score, plan, completeEngraving(note)).slice(1);
    expect(early.map((each) => each.kind === 'change' && each.cannotWait.length > 0)).toEqual(
      early.map(() => true),
    );
    expect(drawPrinted(early[0]!, completeEngraving(note)).text).toContain('foot here');
    const told = printingRemarks(score, { kind: 'pedal', plan }, completeEngraving(note));
    expect(told.map(({ code }) => code)).toContain('mark-before-note');
    expect(told[0]!.message).toMatch(
      /^[CD]♯ stands where the foot moves \(bar \d, beat \d\): at the note that needs it \(bar 3, beat 1\) the left foot has no time for all its pedals\.$/,
    );
    expect(printingRemarks(score, { kind: 'pedal', plan }, completeEngraving())).toEqual([]);
  });

  it('are told in the order of the music, whichever foot makes them', () => {
    const score = smallPart({
      upper: 'E4+F4/1 r/3 | B4/4 | Eb4+F#4/4 | C4+D4/1 r/3 | G4/4 | C#4+D#4/4',
    });
    const plan = planPedals(score);
    const told = printingRemarks(score, { kind: 'pedal', plan }, completeEngraving(note));
    const letters = told.map(({ message }) => message[0]!).join('');
    expect(letters).toMatch(/^[EF]+[CD]+$/);
  });
});

describe('music that comes back', () => {
  it('has what is set again for it marked so, and not for the first time', () => {
    const score = smallPart({ upper: 'E4/4 | C4/4 | C#4/4', playOrder: [0, 1, 2, 1, 2] });
    const [, again] = chooseMarkings(score, planPedals(score));
    expect(again).toMatchObject({ kind: 'change', bar: 1, left: [], right: [], timesPlayed: 2 });
    expect(again!.onReturn).toEqual([{ letter: 'C', position: 0 }]);
  });

  it('has a setting for the first time alone where a pedal stands elsewhere the second time', () => {
    const score = smallPart({ upper: 'F4/4 | C4/4 | r/4 | F#4/4', playOrder: [0, 1, 2, 3, 1, 2, 3] });
    const plan = planPedals(score);
    // As a user would have it, who drags the move into the rest.
    const moves = plan.moves.map((move) => ({ ...move, at: score.bars[2]!.onset, bar: 2 }));
    const settings = chooseMarkings(score, { ...plan, moves }, completeEngraving(), [1]).filter(
      ({ kind }) => kind === 'setting',
    );
    expect(settings.map((each) => 'firstTimeOnly' in each && each.firstTimeOnly)).toEqual([false, true]);
    expect(describeMarking(settings[1]!)).toContain('1st time');
  });
});

describe('a move that cannot wait and cannot be early', () => {
  it('is marked as one with the note: its string sounds until then', () => {
    const held = smallPart({ upper: 'C4/4 | C#4/4' });
    expect(chooseMarkings(held, planPedals(held))[1]).toMatchObject({ withNote: true });
    const free = smallPart({ upper: 'C4/2 r/2 | C#4/4' });
    expect(chooseMarkings(free, planPedals(free))[1]).toMatchObject({ withNote: false });
  });

  it('is marked so in a full setting as well, and said in words', () => {
    const held = withRehearsalAt(smallPart({ upper: 'C4/4 | C#4/4' }), 1);
    const setting = chooseMarkings(held, planPedals(held))[1]!;
    expect(setting).toMatchObject({ kind: 'setting', withNote: true });
    expect(describeMarking(setting)).toMatch(/, with the note$/);
    expect(drawMarking(setting, completeEngraving({})).body).toContain('class="with-note"');
  });
});

describe('settings at a change of key', () => {
  const inKeys = (fifths: readonly number[]): Score => {
    const score = smallPart({ upper: fifths.map(() => 'D4/4').join(' | ') });
    return { ...score, bars: score.bars.map((bar, i) => ({ ...bar, keyFifths: fifths[i]! })) };
  };

  it('are printed where three letters change, and for fewer where that is asked for', () => {
    expect(printed(inKeys([0, 0, 3]))).toHaveLength(2);
    expect(printed(inKeys([0, 0, 2]))).toHaveLength(1);
    expect(printed(inKeys([0, 0, 2]), { settings: { keyChangeLetters: 2 } })).toHaveLength(2);
    expect(printed(inKeys([0, 0, 3]), { settings: { keyChangeLetters: null } })).toHaveLength(1);
  });
});

describe('a setting at a rehearsal mark', () => {
  it('rings the pedals that move there', () => {
    const score = withRehearsalAt(smallPart({ upper: 'C4/4 | D4/4 | C#4/4' }), 2);
    const marked = chooseMarkings(score, planPedals(score)).filter(({ kind }) => kind === 'setting');
    expect(marked.map((each) => 'moved' in each && each.moved)).toEqual([[], []]);
    const held = withRehearsalAt(smallPart({ upper: 'C4/4 | C#4/4' }), 1);
    const [opening, there] = chooseMarkings(held, planPedals(held));
    expect(there).toMatchObject({ kind: 'setting', moved: ['C'] });
    const look = {
      settingLook: 'diagram',
      naming: 'english',
      language: 'english',
      circleChanged: false,
    } as const;
    expect(drawMarking(there!, look).body).toContain('class="ring"');
    expect(drawMarking(opening!, look).body).not.toContain('class="ring"');
  });
});

describe('changes that are told in words', () => {
  it('stand in the order of their letters: the right foot above the left', () => {
    const score = smallPart({ upper: 'D4+A4/1 r/3 | D#4+A#4/4' });
    const markings = chooseMarkings(score, planPedals(score), completeEngraving({ changeWords: true }));
    const told = markings.map(({ inWords }) => inWords.map(({ letter }) => letter).join(' '));
    expect(told.filter((each) => each !== '')).toEqual(['A D']);
  });
});

const LOWEST = smallPart({ upper: 'C1/4 | E4/4' });
const FLAT_LOWEST = smallPart({ upper: 'Db1/4 | E4/4' });

describe('strings that are tuned before the piece', () => {
  it('are told first of all, those without discs apart from those with', () => {
    const score = smallPart({ upper: 'C1/4 | G7/4 | E4/4' });
    const plan = planPedals(score, {
      ...DEFAULT_PLAN_OPTIONS,
      scordatura: new Map([
        ['A4', 50],
        ['B3', -50],
      ]),
    });
    const [note] = findTuningNote(score, plan);
    expect(tuningLines(note!)).toEqual([
      'Tune before playing, without pedal: C1 to C♮ · G7 to G♮',
      'Tune before playing: B3 50 cents lower · A4 50 cents higher',
    ]);
    expect(findTuningNote(score, planPedals(smallPart({ upper: 'C4/4' })))).toEqual([]);
  });

  it('have no setting before them after a long rest, where nothing else follows', () => {
    const printedBefore = (last: string): string[] =>
      printed(smallPart({ upper: `C4/4 | r/4 | r/4 | r/4 | r/4 | ${last}/4` }));
    expect(printedBefore('D1')).toHaveLength(1);
    expect(printedBefore('D2')).toHaveLength(2);
  });

  it('are told what they are tuned to in every language: “D1 auf D” would tell nothing', () => {
    const [note] = findTuningNote(LOWEST, planPedals(LOWEST));
    const to = (Object.keys(LANGUAGES) as Language[]).map((language) =>
      tuningLines(note!, language).join(' '),
    );
    for (const line of to) expect(line).toMatch(/(?:C|Do)1 .*(?:C|Do)♮/);
    const [flat] = findTuningNote(FLAT_LOWEST, planPedals(FLAT_LOWEST));
    expect(tuningLines(flat!, 'german')).toEqual(['Vor dem Spielen stimmen, ohne Pedal: D1 auf Des']);
  });
});

describe('whatever is chosen', () => {
  const bars = fc.array(fc.constantFrom('C4/4', 'C#4+F#4/4', 'r/4', 'Db4/2 r/2', 'F4/1 Bb4/1 r/2'), {
    minLength: 1,
    maxLength: 9,
  });
  const choices = fc.record({
    density: fc.constantFrom('changes' as const, 'both' as const),
    marksAt: fc.constantFrom('foot' as const, 'note' as const),
    multiBarRests: fc.boolean(),
    settings: fc.record({ threeChanges: fc.boolean(), afterRestBars: fc.constantFrom(null, 1, 2, 4) }),
  });

  it('the markings end in the setting in which the plan ends, and stand in order', () => {
    fc.assert(
      fc.property(bars, choices, (music, choice) => {
        const score = smallPart({ upper: music.join(' | ') });
        const plan = planPedals(score);
        const markings = chooseMarkings(score, plan, completeEngraving(choice));
        const read: Record<string, number> = {};
        for (const marking of markings) {
          if (marking.kind === 'setting') Object.assign(read, marking.setting);
          else
            for (const { letter, position } of [...marking.left, ...marking.right]) read[letter] = position;
        }
        const planned: Record<string, number> = { ...plan.initial };
        for (const { letter, to } of plan.moves) planned[letter] = to;
        expect(read).toEqual(planned);
        const times = markings.map(({ at }) => at.num / at.den);
        expect(times).toEqual([...times].sort((a, b) => a - b));
        expect(new Set(markings.map(({ id }) => id)).size).toBe(markings.length);
      }),
    );
  });
});

describe('settings that the user puts or drops', () => {
  const at = (bar: number, beat: number, print: boolean) => ({
    at: { num: 4 * bar + beat - 1, den: 1 },
    bar,
    print,
  });
  const sharpened = smallPart({ upper: 'C4/2 r/1 C#4/1 | C#4/2 D4/2 | D4/4' });

  it('are printed where nothing asks for one, with the moves made there', () => {
    const [move] = planPedals(sharpened).moves;
    const here = { at: move!.at, bar: move!.bar, print: true };
    expect(printed(sharpened, { fullSettings: [here] })).toEqual([
      `1.1 setting ${NATURAL}`,
      '1.3 setting D♮ C♯ B♮ | E♮ F♮ G♮ A♮',
    ]);
  });

  it.each(['changes', 'settings', 'both'] as const)('are printed whatever the density (%s)', (density) => {
    const choice = { density, fullSettings: [at(1, 3, true)] } as const;
    expect(printed(sharpened, choice).at(-1)).toBe('2.3 setting D♮ C♯ B♮ | E♮ F♮ G♮ A♮');
  });

  it('are dropped where an occasion wants one: the moves there are told as changes', () => {
    const three = smallPart({ upper: 'C4+D4+F4/4 | r/4 | r/4 | C#4+D#4+F#4/4' });
    const choice = { fullSettings: [at(1, 1, false), at(0, 1, false)] };
    expect(printed(three, choice)).toEqual(['2.1 F♯/D♯ C♯']);
    expect(printed(three, { ...choice, density: 'settings' })).toEqual(['2.1 F♯/D♯ C♯']);
  });

  it('are dropped at line starts and rehearsal marks, too', () => {
    const there = withRehearsalAt(smallPart({ upper: 'C4/4 | C4/4 | C4/4 | D4/4' }), 3);
    const markings = (fullSettings: EngravingChoice['fullSettings']) =>
      printed(there, fullSettings === undefined ? {} : { fullSettings }, [2]);
    expect(markings(undefined)).toHaveLength(2);
    expect(markings([at(2, 1, false)])).toEqual([`1.1 setting ${NATURAL}`, `4.1 setting ${NATURAL}`]);
    expect(markings([at(2, 1, false), at(3, 1, false)])).toEqual([`1.1 setting ${NATURAL}`]);
  });

  it('of two words about one place the later counts', () => {
    const choice = { fullSettings: [at(2, 1, true), at(2, 1, false)] };
    expect(printed(sharpened, choice)).toEqual(printed(sharpened));
  });
});
