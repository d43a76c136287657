import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { E_FLAT_TUNING, tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { add, divide, rational, subtract } from '../../../engine/music/rational.ts';
import { planPart } from '../../../engine/plan-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { formatBeat } from '../../../engine/words/format-beat.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { chooseLeverMarkings, leversAsTold } from '../../../render/levers/lever-markings.ts';
import { leversUpForRepeat } from '../../../render/levers/needed-times.ts';
import { nameLeverChange } from '../../../render/study/lines/hand-line.ts';
import { tellChanges } from '../../../render/study/moves/change-rows.ts';
import { readingOf } from '../../../render/study/reading-sheet.ts';
import { tellTunedStrings } from '../../../render/study/tuning-rows.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { groupsOf } from '../page-tree.ts';
import { findTouchingWords } from '../touching-words.ts';
import { bindPlanned } from './bound-part.ts';

const url = new URL('../../../server/demo/the-ribbon-stall.musicxml', import.meta.url);
const opened = openScore(new Uint8Array(readFileSync(url)));
if (!opened.ok) throw new Error(opened.problem.code);
const SCORE: Score = opened.value;

const PLANNED = planPart(SCORE, { levers: {} });
if (PLANNED.kind !== 'lever') throw new Error('the demo is for the lever harp');

/** Many changes, some at one moment, in a tuning far from the usual one. */
const BUSY = leverPlanFor(SCORE, {
  tuning: tuneToKey(-7),
  up: 'F3 F4 C4 G4',
  moves: Array.from({ length: 30 }, (_, i) => `${i + 1}.${(i % 5) + 1} ${i % 2 === 0 ? 'D4 E4' : 'Db4 Eb4'}`),
});

const poppler = spawnSync('pdftotext', ['-v']).error === undefined;
if (!poppler)
  console.warn('skipped: the text of a lever study’s PDF, because poppler-utils is not installed');

const readPdf = (pdf: Uint8Array): string => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-levers-'));
  try {
    writeFileSync(join(folder, 'pack.pdf'), pdf);
    return execFileSync('pdftotext', ['-layout', join(folder, 'pack.pdf'), '-']).toString();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

describe('levers that are up before the start', () => {
  const told = (playOrder: readonly number[], up: string, ...moves: readonly string[]): readonly string[] => {
    const score = smallPart({ upper: 'r/4 | D4/4 | D#4/4', playOrder });
    const { plan } = leverPlanFor(score, { up, moves });
    return leversUpForRepeat(score, plan).map(({ letter, octave }) => `${letter}${octave}`);
  };

  it('are told to be for the repeat where no note needs them before they are set down', () => {
    expect(told([0, 1, 2, 0, 1, 2], 'D4', '1.3 D4', '2.3 D#4')).toEqual(['D4']);
  });

  it('are not, where the part is played once, or their note comes first', () => {
    expect(told([0, 1, 2], 'D4', '1.3 D4', '2.3 D#4')).toEqual([]);
    expect(told([2, 0, 1, 2], 'D4', '1.3 D4', '2.3 D#4')).toEqual([]);
  });

  it('have that sentence on the tuning sheet', () => {
    const score = smallPart({ upper: 'r/4 | D4/4 | D#4/4', playOrder: [0, 1, 2, 0, 1, 2] });
    const harp = leverPlanFor(score, { up: 'D4', moves: ['1.3 D4', '2.3 D#4'] });
    const sheet = bindPlanned(score, harp)
      .bound.pages.join('')
      .replace(/<[^>]*>/g, ' ')
      .replace(/\s+/g, ' ');
    expect(sheet).toContain('The lever of D4 is up before the start because of the repeat');
  });
});

describe('the time of playing of a change', () => {
  const score = smallPart({
    upper: 'D5/1 r/3 | D#5/1 r/3 | D5/1 r/3',
    playOrder: [0, 1, 0, 2],
    quartersPerMinute: 60,
  });
  const planned = planPart(score, { levers: { tuning: tuneToKey(0) } });
  if (planned.kind !== 'lever') throw new Error('planned for levers');

  it.each([
    ['english', '1st time: '],
    ['german', '1. Mal: '],
    ['french', '1re fois : '],
    ['italian', '1a volta: '],
    ['spanish', '1.ª vez: '],
  ] as const)('leads its line of the table in %s', (language, time) => {
    const [row] = tellChanges(
      score,
      planned.plan,
      language === 'english' ? 'english' : 'fixed-do',
      wordsOf({ language }),
    );
    expect(row!.why.slice(0, time.length).replace(/\s/gu, ' ')).toBe(time);
  });

  it('is what the page tells beside it, where other times only would not need it', () => {
    const harmless = {
      ...planned.plan,
      moves: planned.plan.moves.map((move) => ({ ...move, onlyAt: null })),
    };
    expect(leversAsTold(score, planned.plan, []).moves.map(({ onlyAt }) => onlyAt)).toEqual(['first', null]);
    const printed = chooseLeverMarkings(score, harmless, planned.profile, {
      leverLook: 'names',
      changeWords: false,
    });
    const onPage = printed.flatMap((each) =>
      each.kind === 'lever-change'
        ? each.changes.map(({ string }) => each.atOneTime.find((one) => one.string === string)?.time ?? null)
        : [],
    );
    expect(leversAsTold(score, harmless, []).moves.map(({ onlyAt }) => onlyAt)).toEqual(onPage);
  });
});

describe('the reason of a change', () => {
  it('is the repeat, where only what comes after the jump back needs it', () => {
    const score = smallPart({ upper: 'F4/1 r/2 C5/1 | F#4/1 r/3 | F4/4', playOrder: [0, 1, 0, 1, 2] });
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: E_FLAT_TUNING });
    const rows = tellChanges(score, plan, 'english', wordsOf({ language: 'english' }));
    const told = rows.map(
      ({ barName, gives, why }) => `${barName} ${gives}: ${why.split(',').slice(0, 2).join()}`,
    );
    expect(told).toEqual([
      '1 F♯4: After F4 in bar 1, before F♯4 in bar 2',
      '2 F♮4: After F♯4 in bar 2, it is set back for the repeat',
    ]);
  });
});

describe('a lever that is up at the start without need the first time', () => {
  it('is told to stand as the repeat leaves it', () => {
    const told = (playOrder: readonly number[]) => {
      const score = smallPart({ upper: 'C4/4 | F4/4 | F#4/4', playOrder });
      const { plan } = leverPlanFor(score, { up: 'F4', moves: ['1.3 F4', '3.1 F#4'] });
      return tellChanges(score, plan, 'english', wordsOf({ language: 'english' }))[0]!.why;
    };
    expect(told([0, 1, 2, 0, 1, 2])).toContain('at the start the position is the one that the repeat leaves');
    expect(told([0, 1, 2])).not.toContain('the repeat');
  });
});

describe('a change that no note needs before its lever is changed again', () => {
  it('is told to be made for the repeat, and the next to come after it', () => {
    const score = smallPart({ upper: 'F#4/4 | C4/4 | F#4/2 F4/2', playOrder: [0, 1, 2, 1, 2] });
    const { plan } = leverPlanFor(score, { up: 'F4', moves: ['1.3 F4', '2.3 F#4', '3.3 F4'] });
    const [first, last] = [score.notes[0]!, score.notes.at(-1)!];
    const windows = [
      { after: first, before: last },
      { after: null, before: score.notes.at(-2)! },
    ];
    const placed = (note: (typeof score.notes)[number] | null) =>
      note === null ? null : { note: note.id, onset: note.onset };
    const moves = plan.moves.map((move, i) => {
      const window = windows[i];
      return window === undefined
        ? move
        : { ...move, window: { after: placed(window.after), before: placed(window.before) } };
    });
    const rows = tellChanges(score, { ...plan, moves }, 'english', wordsOf({ language: 'english' }));
    expect(rows.slice(0, 2).map(({ why }) => why.split(',').slice(0, 2).join())).toEqual([
      'After F♯4 in bar 1, so that what is repeated begins alike each time',
      'After the change in bar 1, before F♯4 in bar 3',
    ]);
  });
});

describe('a change that is made only when the music comes back', () => {
  it('is told for that time, in the table and in the line of the hands', () => {
    const score = smallPart({ upper: 'F4/2 F#4/2 | F#4/4', playOrder: [0, 1, 0, 1] });
    const { plan, ...harp } = leverPlanFor(score, { moves: ['1.1 F4', '1.3 F#4'] });
    const moves = plan.moves.map((move) => ({ ...move, restores: move.to === 'down' }));
    const told = { ...harp, plan: { ...plan, moves } };
    const rows = tellChanges(score, told.plan, 'english', wordsOf({ language: 'english' }));
    expect(rows.map(({ to, why }) => [to, why.startsWith('2nd time: ')])).toEqual([
      ['down', true],
      ['up', false],
    ]);
    const drawn = bindPlanned(score, told).bound.pages.join('');
    expect(drawn.match(/>2nd time</g)).toHaveLength(1);
  });

  it('is explained in the reading sheet, where there is one', () => {
    const signsOf = (restores: boolean): readonly string[] => {
      const score = smallPart({ upper: 'F4/2 F#4/2 | F#4/4', playOrder: [0, 1, 0, 1] });
      const { plan, ...harp } = leverPlanFor(score, { moves: ['1.1 F4', '1.3 F#4'] });
      const moves = plan.moves.map((move) => ({ ...move, restores: restores && move.to === 'down' }));
      return readingOf(score, { ...harp, plan: { ...plan, moves } }, completeEngraving({ legend: true }))!
        .shown;
    };
    expect(signsOf(true)).toContain('second-time-return');
    expect(signsOf(false)).not.toContain('second-time-return');
  });
});

describe('a change on a note that no count can be said of', () => {
  it('has none under it in the line of the hands', () => {
    const score = smallPart({ upper: 'F4/4 | F4/4' });
    const { plan, ...harp } = leverPlanFor(score, { moves: ['1.3 F#4'] });
    const at = (num: number, den: number) => {
      const moves = plan.moves.map((move) => ({ ...move, at: { num, den } }));
      const { bound } = bindPlanned(score, { ...harp, plan: { ...plan, moves } });
      return bound.pages[bound.bookmarks.find(({ text }) => text === 'Levers alone')!.page]!;
    };
    expect(at(4, 7)).not.toMatch(/>4\/7</);
    expect(at(5, 2)).toMatch(/>½</);
  });
});

describe('a part with endings', () => {
  const signs = [{ start: true }, { endings: [1], endTimes: 2 }, { endings: [2] }, {}] as const;
  const part = smallPart({ upper: 'F4/4 | r/2 F#4/2 | r/2 F#4/2 | F4/4', playOrder: [0, 1, 0, 2, 3] });
  const bars = part.bars.map((bar, i) => ({ ...bar, repeat: { ...bar.repeat, ...signs[i] } }));
  const score = { ...part, bars };
  const harp = leverPlanFor(score, { moves: ['1.1 F4', '2.2 F#4', '3.2 F#4', '4.1 F4'] });

  it('has its repeats and endings in the line of the hands too', () => {
    const { bound } = bindPlanned(score, harp);
    const { page } = bound.bookmarks.find(({ text }) => text === 'Levers alone')!;
    expect(bound.pages[page]!.match(/<circle/g)).toHaveLength(4);
    expect(bound.pages[page]).toMatch(/>1\.<.*>2\.</s);
  });

  it('has the signs of its jumps there too, as the part has them', () => {
    const jumps = [
      [{ kind: 'segno', label: '' }],
      [],
      [{ kind: 'fine' }],
      [{ kind: 'dal-segno', label: '' }],
    ] as const;
    const jumping = bars.map((bar, i) => ({ ...bar, repeat: { ...bar.repeat, jumps: jumps[i]! } }));
    const { bound } = bindPlanned({ ...score, bars: jumping }, harp);
    const { page } = bound.bookmarks.find(({ text }) => text === 'Levers alone')!;
    const signs = /transform=.*>Fine<.*>D\.S\. al Fine</s.exec(bound.pages[page]!.split('chart-move')[0]!);
    expect(signs).not.toBeNull();
  });

  it('has the time of playing before what is told of a change in an ending', () => {
    const rows = tellChanges(score, harp.plan, 'english', wordsOf({ language: 'english' }));
    expect(rows.map(({ why }) => /^(1st|2nd) time: /.exec(why)?.[1] ?? null)).toEqual([
      ...[null, '1st', '2nd', null],
    ]);
  });
});

describe('a study edition for the lever harp', () => {
  it('has the tuning sheet before the part, and the part on a right-hand page', () => {
    const { bound } = bindPlanned(SCORE, PLANNED, {}, 3);
    expect(bound.bookmarks.map(({ text }) => text)).toEqual([
      'The Ribbon Stall',
      'Contents',
      'Tuning sheet',
      'The part',
      'A',
      'Levers alone',
      'Table of changes',
      'Difficulty by passage',
      'Findings',
      'Hard spots',
    ]);
    expect(bound.bookmarks.find(({ text }) => text === 'The part')!.page % 2).toBe(0);
    for (const { text, page } of bound.bookmarks.filter(
      ({ text: name }) => name !== 'A' && name !== 'The part',
    ))
      expect(bound.pages[page]).toContain(`>${text}<`);
  });

  it('shows each change once in the line of the hands', () => {
    const { bound } = bindPlanned(SCORE, BUSY);
    // No passage is hard: a spot would have the line of its bars again.
    const shown = bound.pages.flatMap((page) =>
      groupsOf(page, 'chart-move').map(({ attributes }) => attributes['data-change']!),
    );
    expect(shown.sort()).toEqual(BUSY.plan.moves.map((move) => nameLeverChange(move, 'english')).sort());
  });

  it('tells what each letter is tuned to, and which way', () => {
    // In C flat major B, E and A stand as by custom; D, G, C and F are a semitone lower.
    const rows = tellTunedStrings(BUSY.plan, BUSY.profile, 'english', wordsOf({ language: 'english' }));
    expect(rows.map(({ string, custom, tuneTo, change }) => [string, custom, tuneTo, change])).toEqual([
      ['C', 'C', 'C♭', '1 semitone down'],
      ['D', 'D', 'D♭', '1 semitone down'],
      ['E', 'E♭', 'E♭', '–'],
      ['F', 'F', 'F♭', '1 semitone down'],
      ['G', 'G', 'G♭', '1 semitone down'],
      ['A', 'A♭', 'A♭', '–'],
      ['B', 'B♭', 'B♭', '–'],
    ]);
    expect([rows[3]!.up, rows[3]!.gives]).toEqual(['octaves 3, 4', 'F']);
  });

  it('cautions where a string is raised, and not where all are lowered', () => {
    const sheetOf = (fifths: number): string => {
      const { bound } = bindPlanned(SCORE, leverPlanFor(SCORE, { tuning: tuneToKey(fifths) }));
      return bound.pages[bound.bookmarks.find(({ text }) => text === 'Tuning sheet')!.page]!;
    };
    expect(sheetOf(0)).toContain('harp technician');
    expect(sheetOf(-7)).not.toContain('harp technician');
  });

  it('tells of each hard spot which levers are up when it begins', () => {
    const { bound } = bindPlanned(SCORE, PLANNED);
    const { page } = bound.bookmarks.find(({ text }) => text === 'Hard spots')!;
    expect(bound.pages.slice(page).join('')).toContain('When it begins: Levers up: ');
  });

  it('says so where no lever changes', () => {
    const { bound } = bindPlanned(SCORE, leverPlanFor(SCORE, { up: 'A4' }));
    expect(bound.bookmarks.map(({ text }) => text)).not.toContain('Levers alone');
    expect(bound.pages.join('')).toContain('there are no changes to drill');
  });

  it.skipIf(!poppler)('has every change of the plan in the table of its PDF, in order', () => {
    const rows = [
      ...readPdf(bindPlanned(SCORE, PLANNED).pdf()).matchAll(
        /^\s*(\S+)\s+(\S+)\s+(left|right)\s+([A-G]\d)\s+(up|down)\s+\S+\s+\d+\.\d s/gm,
      ),
    ].map((row) => row.slice(1));
    expect(rows).not.toEqual([]);
    expect(rows).toEqual(
      PLANNED.plan.moves.map(({ bar, beat, hand, string, to }) => [
        SCORE.bars[bar]!.number,
        // Counted in two: a count is three of the metre’s beats.
        formatBeat(add(rational(1), divide(subtract(beat, rational(1)), rational(3)))),
        hand,
        `${string.letter}${string.octave}`,
        to,
      ]),
    );
  });
});

const LOOKS: readonly (readonly [string, EngravingChoice])[] = [
  ['A4', {}],
  ['fixed do', { naming: 'fixed-do' }],
  ['small paper', { paper: { widthMm: 100, heightMm: 100 }, naming: 'german' }],
  ['wide paper', { paper: { widthMm: 420, heightMm: 150 } }],
];

describe.each(LOOKS)('on the sheets of a study edition for the lever harp, %s,', (_name, choice) => {
  it.each([
    ['the demo', PLANNED],
    ['a part with changes everywhere', BUSY],
  ])('no words of %s touch others or leave the paper', (_part, harp) => {
    const { bound } = bindPlanned(SCORE, harp, choice);
    const touching = bound.pages.flatMap((page, index) =>
      findTouchingWords(page).map((told) => `${index}: ${told}`),
    );
    expect(touching).toEqual([]);
  });
});
