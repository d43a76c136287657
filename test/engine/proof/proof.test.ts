import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ProofFindingCode } from '../../../engine/findings/catalogue.ts';
import { type Rational, toNumber } from '../../../engine/music/rational.ts';
import { findLateTasks } from '../../../engine/proof/late-tasks.ts';
import type { Proof } from '../../../engine/proof/model.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import { markedPart as marked, NATURALS } from '../../marked-part.ts';
import { cases } from '../../thorough.ts';

const codes = (proof: Proof): readonly ProofFindingCode[] => proof.findings.map((finding) => finding.code);

const only = (proof: Proof) => {
  expect(proof.findings).toHaveLength(1);
  return proof.findings[0]!;
};

describe('a part without markings', () => {
  it('says so', () => {
    expect(codes(proofreadScore(marked({ upper: 'C4/4' })))).toEqual(['no-markings']);
  });
});

describe('a note', () => {
  it('is served where a marking before it states its pedal', () => {
    const proof = proofreadScore(marked({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♯']));
    expect(proof).toMatchObject({ markings: 2, notesChecked: 2, findings: [], correct: true });
    expect(proof.repair).toMatchObject({ edits: [], proven: true, faultsLeft: 0 });
  });

  it('that no marking serves is told with the change that would, between the notes that part it', () => {
    const finding = only(proofreadScore(marked({ upper: 'C4/4 | r/2 C#4/2' }, [1, 1, NATURALS])));
    expect(finding).toMatchObject({
      code: 'note-not-served',
      severity: 'stop',
      bar: 1,
      beat: { num: 3, den: 1 },
    });
    expect(finding.fix).toMatchObject({ kind: 'add', letter: 'C', position: 1 });
    const at = toNumber((finding.fix as { at: Rational }).at);
    expect(at).toBeGreaterThan(0);
    expect(at).toBeLessThanOrEqual(6);
    expect(finding.suggestions[0]).toMatch(/^Add C♯ at bar \d, beat/);
  });

  it('for which the marking itself is wrong is told with the right one', () => {
    const finding = only(proofreadScore(marked({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♭'])));
    expect(finding).toMatchObject({
      code: 'note-not-served',
      fix: { kind: 'alter', marking: 1, letter: 'C', position: 1 },
    });
    expect(finding.suggestions[0]).toBe('Print C♯ instead of C♭ at bar 2, beat 1.');
  });

  it('and those that follow with the same fault are one finding', () => {
    const finding = only(proofreadScore(marked({ upper: 'C#4/2 C#5/2 | C#4/4' }, [1, 1, NATURALS])));
    expect(finding.notes).toHaveLength(3);
  });

  it('that asks for one pedal beside another position can be served by no marking', () => {
    const finding = only(proofreadScore(marked({ upper: 'F4/4', lower: 'F#3/4' }, [1, 1, NATURALS])));
    expect(finding).toMatchObject({ code: 'note-not-served', fix: null });
    expect(finding.suggestions[0]).toContain('play it as G♭3');
  });

  it('tied from another asks for nothing', () => {
    expect(
      proofreadScore(marked({ upper: 'C4/4 | ~C4/4' }, [1, 1, NATURALS], [2, 1, 'C♯'])).findings.map(
        (f) => f.code,
      ),
    ).toEqual(['marking-needless']);
  });

  it('with a trill needs its neighbour, and its pedals until it ends', () => {
    const short = marked({ upper: 'B4/4tr(C#5)' }, [1, 1, NATURALS]);
    expect(only(proofreadScore(short)).sentence).toMatch(/^The ornament on B4 will sound wrong: it needs C♯/);
    const moved = marked({ upper: 'B4/4tr(C5) | C#5/4' }, [1, 1, NATURALS], [1, 3, 'C♯']);
    expect(only(proofreadScore(moved))).toMatchObject({
      code: 'note-not-served',
      fix: { kind: 'move', marking: 1, letter: 'C', at: { num: 4, den: 1 }, bar: 1 },
    });
  });

  it('of grace may need the pedal as it stands before the marking at its onset, or behind it', () => {
    const asks = (upper: string, ...markings: readonly [number, number, string][]) =>
      codes(proofreadScore(marked({ upper }, [1, 1, NATURALS], ...markings)));
    expect(asks('C4/4 | (C#4) C4/4', [1, 3, 'C♯'], [2, 1, 'C♮'])).toEqual([]);
    expect(asks('C4/4 | (C#4) C#4/4', [2, 1, 'C♯'])).toEqual([]);
    expect(asks('C4/4 | (C#4) C4/4')).toEqual(['note-not-served']);
    expect(asks('C4/4 | (C#4) C4/4', [1, 3, 'C♭'], [2, 1, 'C♮'])).toEqual(['note-not-served']);
  });
});

describe('notes before any marking', () => {
  it('are told once, with the setting to print at the start', () => {
    const finding = only(
      proofreadScore(marked({ upper: 'Bb4/2 F#4/2 | C4/4' }, [2, 1, 'D♮ C♮ B♭ E♮ F♯ G♮ A♮'])),
    );
    expect(finding).toMatchObject({ code: 'notes-before-marking', severity: 'warn', bar: 0 });
    expect(finding.notes).toHaveLength(2);
    expect(finding.suggestions[0]).toContain(
      'Print the full setting D♮ C♮ B♭ | E♮ F♯ G♮ A♮ at bar 1, beat 1.',
    );
  });

  it('are those whose pedal a partial list left out', () => {
    const finding = only(proofreadScore(marked({ upper: 'C#4/2 E4/2' }, [1, 1, 'C♯'])));
    expect(finding).toMatchObject({ code: 'notes-before-marking', beat: { num: 3, den: 1 } });
    expect(finding.sentence).toContain('the E pedal stands');
  });
});

describe('a foot', () => {
  const at60 = { quartersPerMinute: 60 };

  it('has time for changes a quarter of a second apart', () => {
    const upper = 'C4/1 D4/1 C#4/1:4 D#4/7:4';
    expect(
      codes(proofreadScore(marked({ upper, ...at60 }, [1, 1, NATURALS], [1, 3, 'C♯'], [1, 3.25, 'D♯']))),
    ).toEqual([]);
  });

  it('has none for changes closer than that, if the notes want them at once', () => {
    const upper = 'C4/1 D4/1 C#4/1:8 D#4/15:8';
    const finding = only(
      proofreadScore(marked({ upper, ...at60 }, [1, 1, NATURALS], [1, 3, 'C♯'], [1, 3.125, 'D♯'])),
    );
    expect(finding).toMatchObject({ code: 'change-too-quick', severity: 'stop' });
    expect(finding.sentence).toContain('left foot cannot set D♯ in time');
    // One of the two gives way, to where its pedal is free.
    expect(finding.fix).toMatchObject({ kind: 'move' });
    expect(finding.furtherFixes).toEqual([]);
  });

  it('takes the time that a rest gives it for several changes printed at one place', () => {
    expect(
      codes(
        proofreadScore(
          marked(
            { upper: 'C4/1 D4/1 B4/1 r/1 | C#4+D#4+Bb4/4', ...at60 },
            [1, 1, NATURALS],
            [1, 4, 'C♯ D♯ B♭'],
          ),
        ),
      ),
    ).toEqual([]);
    expect(
      codes(
        proofreadScore(
          marked({ upper: 'C4/1 D4/1 B4/1 r/1 | C#4+D#4/4', ...at60 }, [1, 1, NATURALS], [2, 1, 'C♯ D♯']),
        ),
      ),
    ).toEqual(['change-too-quick']);
  });

  it('can prepare a change only when the last note of the old position is plucked', () => {
    const busy = 'C4+D4/2 C4+D#4/1:8 C#4/15:8';
    const prepared = (upper: string) =>
      codes(
        proofreadScore(marked({ upper, ...at60 }, [1, 1, NATURALS], [1, 2, 'préparez C♯'], [1, 3, 'D♯'])),
      );
    expect(prepared(busy)).toEqual(['change-too-quick']);
    expect(prepared(busy.replace('C4+D#4', 'D#4'))).toEqual([]);
  });

  it('does not wait for the other', () => {
    expect(
      codes(
        proofreadScore(marked({ upper: 'C4+F4/4 | C#4+F#4/4', ...at60 }, [1, 1, NATURALS], [2, 1, 'C♯ F♯'])),
      ),
    ).toEqual([]);
  });
});

describe('a schedule of one foot', () => {
  /** Whether any order of the tasks is in time: by trying all of them. */
  const anyOrderServes = (
    tasks: readonly { release: number; deadline: number }[],
    from = Number.NEGATIVE_INFINITY,
  ): boolean =>
    tasks.length === 0 ||
    tasks.some((task, i) => {
      const start = Math.max(from, task.release);
      return start <= task.deadline && anyOrderServes(tasks.toSpliced(i, 1), start + 2);
    });

  it('tells the change that comes too late, and not those behind it', () => {
    const together = [0, 0, 2, 4].map((at) => ({ release: at, deadline: at }));
    expect(findLateTasks(together, 2)).toEqual([{ task: together[1], lateSeconds: 2 }]);
  });

  it('finds nothing late only where some order of the changes is in time', () => {
    const task = fc.record({
      release: fc.integer({ min: 0, max: 8 }),
      slack: fc.integer({ min: 0, max: 6 }),
    });
    let served = 0;
    let missed = 0;
    fc.assert(
      fc.property(fc.array(task, { maxLength: 4 }), (drawn) => {
        const tasks = drawn
          .map(({ release, slack }) => ({ release, deadline: release + slack }))
          .sort((a, b) => a.release - b.release);
        const late = findLateTasks(tasks, 2);
        const possible = anyOrderServes(tasks);
        if (late.length === 0) expect(possible).toBe(true);
        if (possible) served += 1;
        if (possible && late.length > 0) missed += 1;
      }),
      { numRuns: cases(2000), seed: 7 },
    );
    expect(served).toBeGreaterThan(500);
    expect(missed / served).toBeLessThan(0.01);
  });
});

describe('a change that is right and uneasy', () => {
  const moveTo = (bar: number) => ({ kind: 'move', marking: 1, letter: 'C', bar });

  it('is told where it bends a held note of its letter, with the place behind that note', () => {
    const part = marked({ upper: 'C4/4 | r/4 | C#5/4' }, [1, 1, NATURALS], [1, 3, 'C♯']);
    const proof = proofreadScore(part);
    expect(only(proof)).toMatchObject({
      code: 'marking-bends-string',
      severity: 'note',
      fix: { kind: 'move' },
    });
    expect(proof).toMatchObject({ correct: true, repair: { edits: [] } });
  });

  it('is told where it is late though the foot was free, as late and not as wrong', () => {
    const part = marked({ upper: 'C4/4 | D4/2 D4/2 | C#4/4' }, [1, 1, NATURALS], [3, 1, 'C♯']);
    expect(only(proofreadScore(part))).toMatchObject({ code: 'marking-late', fix: moveTo(1) });
  });

  it('is told where it is long before its note while the harp plays, and not over a rest', () => {
    const part = (between: string) =>
      marked({ upper: `C4/4 | ${`${between} | `.repeat(10)}C#4/4` }, [1, 1, NATURALS], [2, 1, 'C♯']);
    expect(only(proofreadScore(part('D4/4')))).toMatchObject({ code: 'marking-early', fix: moveTo(10) });
    expect(proofreadScore(part('r/4')).findings).toEqual([]);
  });
});

describe('a fix', () => {
  it('corrects a wrong sign though the foot has no time for the right one: the note was wrong anyway', () => {
    const part = marked(
      { upper: 'D4+C4/1 D#4+C#4/1 r/2', quartersPerMinute: 480 },
      [1, 1, NATURALS],
      [1, 2, 'D♯ C♭'],
    );
    const { repair } = proofreadScore(part);
    expect(repair.edits).toMatchObject([
      { fixes: [{ kind: 'alter', marking: 1, letter: 'C', position: 1 }] },
    ]);
    expect(repair.faultsLeft).toBe(1);
  });

  it('moves a marking that is early behind the last note that needs what it takes away', () => {
    const early = marked({ upper: 'E5/4 | r/2 Eb5/2' }, [1, 1, NATURALS], [1, 1, 'E♭']);
    const move = { kind: 'move', marking: 1, letter: 'E', bar: 1 };
    expect(proofreadScore(early).findings).toMatchObject([
      { code: 'note-not-served', fix: move, furtherFixes: [] },
      { code: 'markings-contradict', fix: move, furtherFixes: [] },
    ]);
    const behind = marked({ upper: 'E5/2 E5/2 | r/2 Eb5/2' }, [1, 1, NATURALS], [1, 3, 'E♭']);
    expect(only(proofreadScore(behind))).toMatchObject({
      fix: { kind: 'move', marking: 1, letter: 'E' },
      furtherFixes: [],
      suggestions: [expect.stringMatching(/^Move the marking E♭ from bar 1, beat 3 to bar \d, beat \d½?\.$/)],
    });
    const { at } = only(proofreadScore(behind)).fix as { at: Rational };
    expect(toNumber(at)).toBeGreaterThan(2);
    expect(toNumber(at)).toBeLessThanOrEqual(6);
  });

  it('moves a marking that is late before the first note that needs it', () => {
    const late = marked({ upper: 'E5/4 | r/2 Eb5/2 | Eb5/4' }, [1, 1, NATURALS], [3, 1, 'E♭']);
    expect(only(proofreadScore(late)).fix).toMatchObject({ kind: 'move', marking: 1, letter: 'E' });
  });

  it('settles two markings that disagree, and the note that neither serves, in one way', () => {
    const proof = proofreadScore(
      marked({ upper: 'E5/4 | Eb5/4 | E5/4' }, [1, 1, NATURALS], [2, 1, 'E♭'], [3, 1, 'E♭'], [3, 1, 'E♯']),
    );
    expect(codes(proof)).toEqual(['note-not-served', 'markings-contradict']);
    const fix = 'Print E♮ instead of E♭ at bar 3, beat 1, and remove the marking E♯ at bar 3, beat 1.';
    expect(proof.findings.map(({ suggestions }) => suggestions)).toEqual([[fix], [fix]]);
  });

  it('puts back what a later note needs, where the note before it needs something else', () => {
    const lost = marked({ upper: 'C#4/4 | C4/4 | C#4/4' }, [1, 1, 'D♮ C♯ B♮ E♮ F♮ G♮ A♮']);
    const finding = only(proofreadScore(lost));
    expect(finding).toMatchObject({
      fix: { kind: 'add', position: 0 },
      furtherFixes: [{ kind: 'add', position: 1 }],
    });
    expect(finding.notes).toHaveLength(1);
  });
});

describe('markings', () => {
  it('that state one pedal twice at one moment contradict each other', () => {
    const proof = proofreadScore(
      marked({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♭'], [2, 1, 'C♯']),
    );
    expect(codes(proof)).toContain('markings-contradict');
    expect(proof.findings.find((f) => f.code === 'markings-contradict')!.sentence).toContain(
      'one marking here says C♭, another C♯',
    );
  });

  it('for a pedal that stands there already are needless, a full setting is not', () => {
    const proof = proofreadScore(
      marked({ upper: 'C4/4 | C4/4 | C4/4' }, [1, 1, NATURALS], [2, 1, 'C♮'], [3, 1, NATURALS]),
    );
    expect(only(proof)).toMatchObject({
      code: 'marking-needless',
      severity: 'note',
      bar: 1,
      fix: { kind: 'remove', marking: 1, letter: 'C' },
    });
    expect(proof.correct).toBe(true);
  });

  it('that say the same twice at one place are told, and one of them goes', () => {
    const twice = marked({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♯'], [2, 1, 'C♯']);
    expect(only(proofreadScore(twice))).toMatchObject({
      code: 'marking-needless',
      severity: 'note',
      sentence: 'C♯ is marked twice at this place.',
      fix: { kind: 'remove', marking: 2, letter: 'C' },
    });
    const beside = marked(
      { upper: 'C4/4 | C#4/4' },
      [1, 1, NATURALS],
      [2, 1, 'C♯'],
      [2, 1, 'D♮ C♯ B♮ E♮ F♮ G♮ A♮'],
    );
    expect(codes(proofreadScore(beside))).toEqual([]);
  });

  it('that are not understood are told by name, with what is missing in their bar', () => {
    const part = marked({ upper: 'E4/4 | Eb4/4' }, [1, 1, NATURALS]);
    const { onset } = part.bars[1]!;
    const unread = { at: onset, bar: 1, span: { start: 0, end: 0 }, text: 'E♭♭' };
    const proof = proofreadScore({ ...part, unreadWords: [unread] });
    const finding = proof.findings.find(({ code }) => code === 'words-not-understood');
    expect(finding).toMatchObject({ bar: 1, severity: 'warn', fix: null });
    expect(finding!.sentence).toContain('“E♭♭” seem to name pedals');
    expect(proof.correct).toBe(false);
  });

  it('for a pedal that moves on before any note asks for it are needless', () => {
    const proof = proofreadScore(
      marked({ upper: 'C4/4 | E4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♭'], [2, 3, 'C♯']),
    );
    expect(only(proof)).toMatchObject({ code: 'marking-needless', bar: 1 });
    expect(only(proof).sentence).toContain('no note needs it');
  });

  it('to be prepared take effect as a whole with the first note that asks for one of their changes', () => {
    const upper = 'C4+F4/4 | C4/4 | F#4/4 | C#4/4';
    expect(codes(proofreadScore(marked({ upper }, [1, 1, NATURALS], [2, 1, 'préparez C♯ F♯'])))).toEqual([]);
    expect(codes(proofreadScore(marked({ upper }, [1, 1, NATURALS], [2, 1, 'C♯ F♯'])))).toEqual([
      'note-not-served',
    ]);
    const late = 'C4+F4/4 | C4/4 | F#4/4 | C4/4';
    expect(
      only(proofreadScore(marked({ upper: late }, [1, 1, NATURALS], [2, 1, 'préparez C♯ F♯']))),
    ).toMatchObject({ bar: 3 });
  });
});

describe('a repeat', () => {
  const twice = [0, 1, 0, 1];

  it('that comes back with a pedal elsewhere lands in the wrong setting', () => {
    const upper = 'r/4 | C4/4 | C#4/4';
    const finding = only(
      proofreadScore(marked({ upper, playOrder: [0, 1, 2, 1, 2] }, [1, 1, NATURALS], [3, 1, 'C♯'])),
    );
    expect(finding).toMatchObject({
      code: 'repeat-lands-wrong',
      severity: 'stop',
      bar: 1,
      fix: { kind: 'add', letter: 'C', position: 0, bar: 1, beat: { num: 1, den: 1 } },
    });
    expect(finding.sentence).toContain('When the music returns to bar 2');
  });

  it('does not make one fault two, where the wrong marking is read on every pass', () => {
    const upper = 'r/4 | C4/4 | C#4/4';
    const markings = [
      [1, 1, NATURALS],
      [3, 1, 'C♮'],
    ] as const;
    const finding = only(proofreadScore(marked({ upper, playOrder: [0, 1, 2, 1, 2] }, ...markings)));
    // C♯ alone would leave the C of bar 2 wrong when the music comes back to it.
    expect(finding).toMatchObject({
      code: 'note-not-served',
      fix: { kind: 'add', letter: 'C', position: 0, bar: 1 },
      furtherFixes: [{ kind: 'alter', marking: 1, position: 1 }],
    });
    expect(finding.suggestions).toEqual([
      'Add C♮ at bar 2, beat 1, and print C♯ instead of C♮ at bar 3, beat 1.',
    ]);
  });

  it('ends a trill that the music leaves', () => {
    const upper = 'C4/2 C#4/2 | B4/4tr(C5)';
    const markings = [
      [1, 1, NATURALS],
      [1, 3, 'C♯'],
      [2, 1, 'C♮'],
    ] as const;
    expect(codes(proofreadScore(marked({ upper, playOrder: twice }, ...markings)))).toEqual([]);
  });

  it('is right where a marking at its start restores the setting', () => {
    const restored = marked({ upper: 'C4/4 | C#4/4', playOrder: twice }, [1, 1, NATURALS], [2, 1, 'C♯']);
    expect(codes(proofreadScore(restored))).toEqual([]);
  });
});

describe('a glissando', () => {
  it('that sounds otherwise than the key is worth a look, no fault', () => {
    const upper = 'C4/2> C6/2';
    expect(codes(proofreadScore(marked({ upper }, [1, 1, NATURALS])))).toEqual([]);
    const finding = only(proofreadScore(marked({ upper }, [1, 1, 'D♮ C♮ B♭ E♮ F♯ G♮ A♮'])));
    expect(finding).toMatchObject({ code: 'glissando-unlike-key', severity: 'note' });
    expect(finding.sentence).toContain(
      'will sound B♭ and F♯, but its notes and the key signature say B♮ and F♮',
    );
  });

  it('whose pedals no marking states is told', () => {
    expect(codes(proofreadScore(marked({ upper: 'C4/2> C6/2' }, [1, 1, 'C♮ D♮'])))).toEqual([
      'notes-before-marking',
    ]);
  });
});
