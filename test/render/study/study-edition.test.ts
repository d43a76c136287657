import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatChange } from '../../../engine/harp/setting.ts';
import { rational, toNumber, ZERO } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { countBars } from '../../../engine/score/bars/counts.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { tellMoves } from '../../../render/study/moves/move-rows.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { bar, note, readHarp } from '../../engine/score/musicxml/musicxml-builder.ts';
import { markedPart } from '../../marked-part.ts';
import { smallPart } from '../../part-builder.ts';
import { groupsOf } from '../page-tree.ts';
import { findTouchingWords } from '../touching-words.ts';
import { bindPart, bindPlanned } from './bound-part.ts';

const demo = (): Score => {
  const url = new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url);
  const opened = openScore(new Uint8Array(readFileSync(url)));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** Every pedal moves in every bar, one of them on every beat; rehearsal marks stand in neighbouring bars. */
const busy = (): Score => {
  const bars = Array.from({ length: 12 }, (_, i) =>
    i % 2 === 0 ? 'C4/1 C#4/1 C4/1 C#4/1' : 'D4+E4+F4+G4+A4+B4/2 D#4+Eb4+F#4+G#4+A#4+Bb4/2',
  );
  const score = smallPart({ upper: bars.join(' | ') });
  const landmarks = [0, 1, 2, 5].map((bar) => ({
    at: score.bars[bar]!.onset,
    bar,
    kind: 'rehearsal' as const,
    text: `The mill wheel turns again, ${bar}`,
  }));
  return { ...score, landmarks };
};

const QUIET = 'C4/4 | D4/4 | E4/4';

const movesIn = (pages: readonly string[]): string[] =>
  pages.flatMap((page) => groupsOf(page, 'chart-move').map(({ attributes }) => attributes['data-change']!));

/** What is said in each language of a glissando whose accidentals are not all stated. */
const GUESSED: Readonly<Record<Language, string>> = {
  english: 'not stated for this glissando',
  german: 'für dieses Glissando nicht angegeben',
  french: 'non indiquée pour ce glissando',
  italian: 'non indicata per questo glissando',
  spanish: 'no indicada para este glissando',
};

describe('a study edition', () => {
  it('begins the part on a right-hand page, as the layout of its page turns supposes', () => {
    const { bound } = bindPart(smallPart({ upper: QUIET }));
    const part = bound.bookmarks.find(({ text }) => text === 'The part')!;
    expect(part.page).toBe(2);
    expect(bound.turns.map(({ page }) => page)).toEqual([3]);
    expect(bound.crowded.map(({ page }) => page)).toEqual([3]);
  });

  it('has its chapters as bookmarks, the rehearsal marks under the part', () => {
    const { bound } = bindPart(demo(), {}, 3);
    expect(bound.bookmarks.map(({ text, level }) => `${level} ${text}`)).toEqual([
      '1 Lanterns at the Lock',
      '1 Contents',
      '1 The part',
      '2 A',
      '1 Pedal chart',
      '1 Footwork line',
      '1 Table of moves',
      '1 Difficulty by passage',
      '1 Findings',
      '1 Hard spots',
    ]);
    for (const name of ['Findings', 'Pedal chart', 'Table of moves']) {
      const { page } = bound.bookmarks.find(({ text }) => text === name)!;
      expect(bound.pages[page]).toContain(`>${name}<`);
    }
  });

  it('has the time of playing in the chart too, where a move is made only when the music comes back', () => {
    const score = smallPart({ upper: 'C4/2 C#4/2 | C#4/4', playOrder: [0, 1, 0, 1] });
    const { bound, plan } = bindPart(score);
    expect(plan.moves.some(({ restores }) => restores)).toBe(true);
    const chapter = (name: string) => bound.bookmarks.find(({ text }) => text === name)!.page;
    const sheets = new Set([chapter('Pedal chart'), chapter('Footwork line')]);
    const drawn = [...sheets].map((page) => bound.pages[page]!).join('');
    expect(drawn.match(/>2nd time</g)).toHaveLength(2);
  });

  it('tells of a move that it is made with its note only where the part has the wedge', () => {
    const rowsOf = (upper: string) => {
      const score = smallPart({ upper });
      return tellMoves(score, planPedals(score), 'english', wordsOf({ language: 'english' }));
    };
    const [waiting] = rowsOf('C4/1 C#4/3');
    expect(waiting).toMatchObject({ leadSeconds: 0, withNote: true });
    for (const { withNote } of rowsOf('C4/1 r/1 C#4/2')) expect(withNote).toBe(false);
  });

  it('has hard notes practised by each hand, and hard moves by the feet', () => {
    const chord = 'D3+E3+G3+B3+D4/4';
    const lower = [chord, chord, chord, chord].join(' | ');
    const four = (c: string): string => `${c}5+E5+G5+B5/4`;
    const exercisesOf = (score: Score): string => bindPart(score).bound.pages.join('');
    const ofHands = exercisesOf(
      smallPart({ upper: `${four('C')} | ${four('C')} | ${four('C#')} | ${four('C#')}`, lower }),
    );
    expect(ofHands).toContain('Each hand by itself');
    expect(ofHands).not.toContain('The feet alone: the footwork above');
    expect(exercisesOf(busy())).toContain('The feet alone: the footwork above');
  });

  it('tells that a marking of the file contradicts the notes, whether the part has it or not', () => {
    const score = markedPart({ upper: 'C#4/4' }, [1, 1, 'C♮']);
    for (const fileMarkings of [true, false]) {
      const told = bindPart(score, { fileMarkings }).bound.pages.join('');
      expect(told).toContain('By the file’s own marking');
    }
  });

  it('tells in each language how many markings of the file made way for ours', () => {
    const score = smallPart({ upper: 'C4/4 | C4/4' });
    const toldOf = (language: Language, replacedMarkings: number): string =>
      bindPlanned(score, { kind: 'pedal', plan: planPedals(score) }, { language }, 1, replacedMarkings)
        .bound.pages.join('')
        .replace(/<[^>]*>/g, ' ')
        .replace(/\s+/g, ' ');
    expect(toldOf('english', 1)).toContain(
      'On the pages, 1 pedal marking from the file made way for tringle’s.',
    );
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      const sentence = wordsOf({ language }).findings.markingsMadeWay(2);
      expect(toldOf(language, 2)).toContain(sentence);
      expect(toldOf(language, 0)).not.toContain(sentence.slice(0, 12));
    }
  });

  it('has its chapters in one order, whatever room that leaves on the sheets', () => {
    for (const heightMm of [297, 270, 240]) {
      const { bookmarks } = bindPart(demo(), { paper: { widthMm: 210, heightMm } }).bound;
      expect(bookmarks.slice(1).map(({ text }) => text)).toEqual([
        'Contents',
        'The part',
        'A',
        'Pedal chart',
        'Footwork line',
        'Table of moves',
        'Difficulty by passage',
        'Findings',
        'Hard spots',
      ]);
    }
  });

  it('names each movement with its own setting behind a pause, in its bookmarks and its contents', () => {
    const part = smallPart({ upper: 'C4/4 | D4/4 | C#4/4 | D4/4 | Eb4/4' });
    const { bound } = bindPart({ ...part, movements: [2, 4], pauses: [2] });
    const names = ['Movement I', 'Movement II', 'Movement III'];
    const marks = bound.bookmarks.filter(({ text }) => names.includes(text));
    expect(marks.map(({ text, level, page }) => [text, level, page])).toEqual(
      names.map((name) => [name, 2, 2]),
    );
    const front = bound.pages.slice(0, 2).join('');
    expect(front).toContain('<title>Movement II: D♮ C♯ B♮ | E♭ F♮ G♮ A♮<');
    // Nothing is set between the second and the third, which the contents name alone.
    expect(front.split('>Movement II<')).toHaveLength(3);
    expect(front.split('>Movement III<')).toHaveLength(2);
  });

  it('has a page for notes where the part would begin on a left-hand page, and no blank one', () => {
    const fronts = [1, 12, 24].map((bars) => {
      const upper = Array.from({ length: bars }, () => 'C4/2 C#4/2').join(' | ');
      const { bound } = bindPart(smallPart({ upper }), { paper: { widthMm: 210, heightMm: 260 } });
      return bound.pages.slice(0, bound.bookmarks.find(({ text }) => text === 'The part')!.page);
    });
    for (const front of fronts) {
      expect(front.length % 2).toBe(0);
      for (const page of front) expect(page).toMatch(/<text[^>]*font-weight="bold"/);
    }
  });

  it.each(Object.keys(LANGUAGES) as Language[])('tells findings in whole sentences in %s', (language) => {
    // The demo guesses the setting of a glissando.
    const { bound } = bindPart(demo(), { language });
    expect(bound.pages.join('')).toContain(GUESSED[language]);
  });

  it('prints the best three of many remedies, says that one is enough, and how many more there are', () => {
    const score = smallPart({ upper: 'C3+C#3/1 r/3' });
    const plan = planPedals(score);
    const [finding] = plan.findings;
    const fixes = Array.from({ length: 8 }, (_, i) => ({ ...finding!.fixes[0]!, moreMoves: i + 1 }));
    const findings = [{ ...finding!, fixes, help: [] }];
    const { bound } = bindPlanned(score, { kind: 'pedal', plan: { ...plan, findings } });
    const drawn = bound.pages.join('');
    expect(drawn).toContain('>One of these is enough:<');
    expect(drawn.match(/costs at most/g)).toHaveLength(3);
    expect(drawn).toContain('>and 5 more.<');
  });

  it('does not call a part easy without a word where a hand has too much in a bar', () => {
    const quiet = Array.from({ length: 100 }, () => 'C4/4').join(' | ');
    const title = (upper: string): string =>
      /Difficulty: [^<]*/.exec(bindPart(smallPart({ upper })).bound.pages[0]!)![0];
    expect(title(quiet)).toBe('Difficulty: easy');
    const strings = ['C1', 'D1', 'E1', 'F1', 'G1', 'A1', 'B1', 'C2', 'D2', 'E2'].join('+');
    expect(title(`${quiet} | ${strings}/4`)).toBe('Difficulty: easy, but not everywhere');
  });

  it.each(['german', 'italian'] as const)(
    'names notes in English sheets as %s does, where asked to',
    (naming) => {
      const { bound } = bindPart(smallPart({ upper: 'F#4+F4/1 r/3' }), { naming });
      const drawn = bound.pages.join('').replace(/<[^>]*>/g, '');
      expect(drawn).toContain(naming === 'german' ? 'Write Ges4 for the Fis4' : 'Write Sol♭4 for the Fa♯4');
      expect(drawn).not.toMatch(/F♯4|G♭4/);
    },
  );

  it('has nothing to drill where nothing moves, and says so once', () => {
    const { bound } = bindPart(smallPart({ upper: QUIET }));
    const drawn = bound.pages.join('');
    expect(drawn.match(/there are no moves to drill/g)).toHaveLength(1);
    for (const chapter of ['Pedal chart', 'Footwork line', 'Table of moves', 'Hard spots']) {
      expect(drawn).not.toContain(`>${chapter}<`);
    }
  });

  it('gives no sheet of its own to a few findings where another has room', () => {
    const { bound } = bindPart(demo(), { staffMm: 12, level: 'beginner' });
    const { page, topMm } = bound.bookmarks.find(({ text }) => text === 'Findings')!;
    const isShared = topMm > 0 || bound.bookmarks.filter((each) => each.page === page).length > 1;
    expect(isShared).toBe(true);
  });

  it('says once that chord symbols are not reckoned with, where the part has some', () => {
    const toldOf = (score: Score): number =>
      bindPart(score)
        .bound.pages.join('')
        .match(/Chord symbols are printed/g)?.length ?? 0;
    const symbol = '<harmony><root><root-step>A</root-step></root><kind>major</kind></harmony>';
    expect(toldOf(readHarp(bar(symbol + note('C4', 4))))).toBe(1);
    expect(toldOf(readHarp(bar(note('C4', 4))))).toBe(0);
  });

  it('sets short chapters on one sheet', () => {
    const { bound } = bindPart(smallPart({ upper: QUIET }));
    expect(bound.pages).toHaveLength(3);
  });

  it('compresses rests and music without a move in the chart, with the numbers of their bars', () => {
    const rest = Array.from({ length: 40 }, () => 'r/4');
    const upper = ['C4/4', ...rest, 'C#4/4', 'C#4/4', 'D4/4', 'E4/4'].join(' | ');
    const { bound } = bindPart(smallPart({ upper }));
    const drawn = bound.pages.join('');
    expect(drawn).toContain('>Pedal chart<');
    expect(drawn).toContain('>3–41<');
    expect(drawn).toContain('>42–45<');
    expect(drawn).not.toContain('>20<');
  });

  it('counts a rest as the printed numbers do: an upbeat not at all, a divided bar once', () => {
    const part = smallPart({ upper: 'r/4 | C4/4 | D4/4 | E4/4 | r/4 | C4/4 | C#4/4 | D4/4' });
    const short = new Set([0, 3, 4]);
    const bars = part.bars.map((bar, i) => ({
      ...bar,
      number: `${i < 4 ? i : i - 1}`,
      duration: short.has(i) ? rational(1) : bar.duration,
    }));
    const drawn = bindPart({ ...part, bars }).bound.pages.join('');
    // The chart tells the silent upbeat apart from the music.
    for (const name of ['0', '1–4', '0–4']) expect(drawn).toContain(`>${name}</text>`);
    expect(drawn).toMatch(/font-weight="bold"[^>]*>4<\/text>/);
    expect(drawn).not.toContain('NaN');
  });

  it('counts two in 6/8, and six where the metronome mark counts eighths', () => {
    const part = smallPart({ upper: 'C4/3/2 C#4/3/2', meter: { beats: 6, beatUnit: 8 } });
    const countsIn = (score: Score): number => countBars(score)[0]!.counts.length;
    const mark = (text: string): Score => ({
      ...part,
      texts: [{ at: ZERO, bar: 0, kind: 'tempo', text, bold: false }],
    });
    expect(countsIn(part)).toBe(2);
    expect(countsIn(mark('Andante (\uECA5\uECB7 = 60)'))).toBe(2);
    expect(countsIn(mark('Adagio \uECA7 = 80'))).toBe(6);
    expect(countsIn(mark('Adagio'))).toBe(2);
  });

  it('shows each move once in the chart and once in the footwork line', () => {
    const { bound, plan } = bindPart(demo());
    const wanted = plan.moves.map(({ letter, to }) => formatChange(letter, to)).sort();
    const spots = bound.bookmarks.find(({ text }) => text === 'Hard spots')!.page;
    expect(movesIn(bound.pages.slice(0, spots)).sort()).toEqual([...wanted, ...wanted].sort());
  });

  it('gives no exercises for a passage that cannot be played', () => {
    // At 300 quarters a minute no foot moves at every note.
    const upper = 'C4/1 C#4/1 C4/1 C#4/1';
    const text = (quartersPerMinute: number): string =>
      bindPart(smallPart({ upper, quartersPerMinute })).bound.pages.join('');
    expect(text(300)).toContain('this passage cannot be played');
    expect(text(300)).not.toContain('The hands alone');
    expect(text(60)).toContain('The hands alone');
  });

  it('says once on its first page that the part cannot be played: C4 and C♯5 at once', () => {
    const [title] = bindPart(smallPart({ upper: 'C4+C#5/4' })).bound.pages;
    expect(title!.split('Not playable as printed')).toHaveLength(2);
  });

  it('grades its passages only where they differ from the whole', () => {
    const named = (upper: string) => bindPart(smallPart({ upper })).bound.bookmarks.map(({ text }) => text);
    expect(named(QUIET)).not.toContain('Difficulty by passage');
    expect(named('C4/4 | C#4/4 | C4/4')).toContain('Difficulty by passage');
  });

  it('says once that the grades are our own', () => {
    expect(bindPart(demo()).bound.pages.join('').split('No scale for this is published')).toHaveLength(2);
  });

  it('tells the seconds from a move to its note', () => {
    const score = smallPart({ upper: 'C4/1 r/3 | r/2 C#4/2', quartersPerMinute: 30 });
    const plan = planPedals(score);
    const [move] = plan.moves;
    const [row] = tellMoves(score, plan, 'english', wordsOf({ language: 'english' }));
    // At 30 quarters a minute a quarter takes two seconds; C♯ comes six quarters after the start.
    expect(row!.leadSeconds).toBeCloseTo((6 - toNumber(move!.at)) * 2, 9);
    expect(row).toMatchObject({ pedal: 'C', foot: 'left', from: 'natural', to: 'sharp' });
    expect(row!.why).toContain('before C♯4 in bar 2, count 3');
  });

  it('says that a move comes long before its note only where it does', () => {
    const whyOf = (quartersPerMinute: number): string => {
      const score = smallPart({ upper: 'C4/1 r/3 | r/2 C#4/2', quartersPerMinute });
      const [row] = tellMoves(score, planPedals(score), 'english', wordsOf({ language: 'english' }));
      return row!.why;
    };
    expect(whyOf(30)).toContain('it comes well before its note');
    expect(whyOf(240)).not.toContain('it comes well before its note');
  });

  it('names the place of a finding by its count, as its other sheets do', () => {
    // Both hands have the string at the fourth eighth, which is the second count.
    const score = smallPart({
      ...{ upper: 'r/3:2 C4/3:2', lower: 'r/3:2 C4/3:2' },
      meter: { beats: 6, beatUnit: 8 },
    });
    const words = bindPart(score)
      .bound.pages.join('')
      .replaceAll(/<[^>]*>/g, '');
    expect(words).toContain('Warning: bar 1, count 2');
  });

  it('names no lead where the note that needs the move comes after a jump', () => {
    const score = smallPart({ upper: 'C4/2 r/2 | r/2 C#4/2', playOrder: [0, 1, 0, 1] });
    const plan = planPedals(score);
    const rows = tellMoves(score, plan, 'english', wordsOf({ language: 'english' }));
    const back = plan.moves.findIndex(({ to }) => to === 0);
    expect(back).not.toBe(-1);
    expect(rows[back]!.leadSeconds === null).toBe(
      plan.moves[back]!.window.before === null ||
        toNumber(plan.moves[back]!.window.before!.onset) < toNumber(plan.moves[back]!.at),
    );
  });
});

const LOOKS: readonly (readonly [string, EngravingChoice])[] = [
  ['A4', {}],
  ['fixed do', { naming: 'fixed-do' }],
  ['small paper', { paper: { widthMm: 100, heightMm: 100 }, naming: 'german' }],
  ['wide paper', { paper: { widthMm: 420, heightMm: 150 } }],
  ['for a beginner', { level: 'beginner', settingMm: 60 }],
  ...(Object.keys(LANGUAGES) as Language[]).map((language): [string, EngravingChoice] => [
    `in ${language}`,
    { language, level: 'intermediate' },
  ]),
];

describe.each(LOOKS)('on the sheets of a study edition, %s,', (_name, choice) => {
  it.each([
    ['the demo', demo],
    ['a part with moves everywhere', busy],
  ])('no words of %s touch others or leave the paper', (_part, score) => {
    const { bound } = bindPart(score(), choice);
    const touching = bound.pages.flatMap((page, index) =>
      findTouchingWords(page).map((told) => `${index}: ${told}`),
    );
    expect(touching).toEqual([]);
  });
});
