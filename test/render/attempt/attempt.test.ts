import { rollup } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { judgeAttempt } from '../../../engine/attempt/judge-attempt.ts';
import { judgeLeverAttempt } from '../../../engine/attempt/judge-lever-attempt.ts';
import type { Verdict } from '../../../engine/attempt/model.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { LETTERS, type Letter } from '../../../engine/music/pitch.ts';
import { planPart } from '../../../engine/plan-part.ts';
import { DEFAULT_PROOF_OPTIONS } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { drawAttempt } from '../../../render/attempt/attempt-pages.ts';
import { tellJudged } from '../../../render/attempt/attempt-words.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { markingsFor } from '../../../render/markings/printed-markings.ts';
import { nameChange, nameInWords } from '../../../render/sheets/note-words.ts';
import { annotateSource } from '../../../render/source/annotate-source.ts';
import { ownMarksAt } from '../../../render/source/our-markings.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { demoScore } from '../../demo-score.ts';
import { drawFrom } from '../../engine/proof/plant-faults.ts';
import { buildHarp, direction, note, rest, words } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotatedForLevers } from '../../lever-alarms.ts';
import { plantLeverFaults } from '../../spoilt-levers.ts';
import { groupsOf } from '../page-tree.ts';

const ALL_LANGUAGES = Object.keys(LANGUAGES) as Language[];

const read = (xml: string | Uint8Array): Score => {
  const opened = openScore(typeof xml === 'string' ? new TextEncoder().encode(xml) : xml);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
};

/** The settings and changes of a short part as a pupil writes them, in the note names of a language. */
interface Written {
  readonly opening: string | null;
  /** At the third beat of bar 2, before the C♯ of bar 3. */
  readonly first: string | null;
  /** At the second beat of bar 3, after its C♯. */
  readonly late: string | null;
  /** At the third beat of bar 4, before the C♮ of bar 5. */
  readonly second: string | null;
  /** At the third beat of bar 1. */
  readonly early: string | null;
  /** Just before the C♯ of bar 3. */
  readonly upon: string | null;
}

const NOTHING: Written = { opening: null, first: null, late: null, second: null, early: null, upon: null };

const attempt = (written: Partial<Written>): Score => {
  const { opening, first, late, second, early, upon } = { ...NOTHING, ...written };
  const say = (text: string | null): string => (text === null ? '' : words(text));
  return read(
    buildHarp(
      `${say(opening)}${note('C4', 2)}${say(early)}${note('D4', 2)}`,
      `${note('D4', 1)}${rest(1)}${say(first)}${rest(2)}`,
      `${say(upon)}${note('C#4', 1)}${say(late)}${rest(3)}`,
      `${note('E4', 1)}${rest(1)}${say(second)}${rest(2)}`,
      note('C4', 4),
    ),
  );
};

const inLanguage = (language: Language) => {
  const { naming } = LANGUAGES[language];
  const name = (letter: Letter, position: -1 | 0 | 1): string => nameChange(letter, position, naming);
  const setting = LETTERS.map((letter) => name(letter, 0)).join(' ');
  return { naming, name, right: { opening: setting, first: name('C', 1), second: name('C', 0) } };
};

const verdictsOf = (score: Score): Verdict[] =>
  judgeAttempt(score)
    .changes.map(({ verdict }) => verdict)
    .filter((verdict) => verdict !== 'right');

describe.each(ALL_LANGUAGES)('an attempt in %s', (language) => {
  const { naming, name, right } = inLanguage(language);

  it('has full points where it is correct', () => {
    const { points, changes } = judgeAttempt(attempt(right));
    expect(changes.map(({ verdict }) => verdict)).toEqual(['right', 'right', 'right']);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it.each<[string, Partial<Written>, Verdict]>([
    ['the wrong accidental', { first: name('C', -1) }, 'wrong'],
    ['a change after its note', { first: null, late: name('C', 1) }, 'wrong'],
    ['a change left out', { first: null }, 'missing'],
    ['the opening setting left out', { opening: null }, 'missing'],
    ['a change that comes hard upon its note', { first: null, upon: name('C', 1) }, 'better-place'],
    ['a change that does nothing', { early: name('D', 0) }, 'needless'],
  ])('is marked for %s, in words of that language', async (_, planted, verdict) => {
    const score = attempt({ ...right, ...planted });
    expect(verdictsOf(score)).toContain(verdict);
    expect(verdictsOf(score).filter((each) => each !== verdict)).toEqual([]);
    const judged = judgeAttempt(score);
    const [change] = judged.changes.filter((each) => each.verdict === verdict);
    const { marked } = wordsOf({ language });
    expect(tellJudged(score, change!, { harp: 'pedal', language, naming })).toContain(
      marked.verdicts[verdict],
    );
  });

  it('says why another name of the same sound will not do', () => {
    const score = attempt({ ...right, first: name('D', -1), second: name('D', 0) });
    const faults = judgeAttempt(score).changes.filter(({ verdict }) => verdict !== 'right');
    expect(faults.map(({ verdict }) => verdict)).toEqual(['wrong', 'needless']);
    const told = tellJudged(score, faults[0]!, { harp: 'pedal', language, naming });
    const { marked } = wordsOf({ language });
    expect(told).toContain(marked.write(name('C', 1)));
    expect(told).toContain(marked.sameSound(name('D', -1), nameInWords('D', 0, naming), name('C', 1)));
  });

  it('says what sounds instead, and what to write', () => {
    const score = attempt({ ...right, first: name('C', -1) });
    const [wrong] = judgeAttempt(score).changes.filter(({ verdict }) => verdict === 'wrong');
    const told = tellJudged(score, wrong!, { harp: 'pedal', language, naming });
    const { marked } = wordsOf({ language });
    expect(told).toContain(marked.write(name('C', 1)));
    expect(told).toContain(naming === 'german' ? 'Ces4' : `${name('C', -1)}4`);
  });
});

describe.each(ALL_LANGUAGES)('a pedal that stays wrong, in %s', (language) => {
  const { naming, name, right } = inLanguage(language);
  const { marked } = wordsOf({ language });

  const tell = (...bars: readonly string[]): string => {
    const score = read(
      buildHarp(`${words(right.opening)}${note('D4', 4)}`, `${words(name('C', -1))}${rest(4)}`, ...bars),
    );
    const wrong = judgeAttempt(score).changes.find(({ verdict }) => verdict === 'wrong');
    return tellJudged(score, wrong!, { harp: 'pedal', language, naming });
  };

  it('is told with the number of notes that it spoils besides the first, and with the bar of the last', () => {
    const told = tell(`${note('C#4', 2)}${note('C#4', 2)}`, note('C#4', 4));
    expect(told).toContain(marked.more(2, '4'));
  });

  it('is told of one more note in the same bar as of one', () => {
    const told = tell(`${note('C#4', 2)}${note('C#4', 2)}`);
    expect(told).toContain(marked.more(1, null));
    expect(told).not.toContain('null');
  });
});

describe('the correct attempt at the demo', () => {
  const score = demoScore('lanterns-at-the-lock', 'beginning');
  const harp = planPart(score, {});

  const write = (choice: EngravingChoice): Score => {
    const engraving = completeEngraving(choice);
    const { placement, marksAt, fileSettings: settings } = engraving;
    const done = annotateSource(score, markingsFor(score, harp, engraving), {
      others: 'replace',
      ...{ placement, marksAt, settings },
    });
    if (!done.ok) throw new Error(done.problem.code);
    return read(done.value.bytes);
  };

  it.each<[EngravingChoice]>([
    [{}],
    [{ density: 'changes' }],
    [{ marksAt: 'note' }],
    [{ placement: 'above' }],
    [{ fileSettings: 'both' }],
    [{ settings: { afterRestBars: 1, keyChangeLetters: 1 } }],
    [{ naming: 'german' }],
    [{ naming: 'fixed-do' }],
    [{ level: 'beginner' }],
  ])('has full points when it is written with %o', (choice) => {
    const written = write(choice);
    const marksAt = ownMarksAt(written) ?? 'foot';
    const judged = judgeAttempt(written, { ...DEFAULT_PROOF_OPTIONS, marksAt });
    expect(judged.changes.filter(({ verdict }) => verdict !== 'right')).toEqual([]);
    expect(judged.points.given).toBe(judged.points.most);
    expect(judged.points.most).toBeGreaterThan(15);
  });
});

describe('an attempt at the levers of the demo', () => {
  const score = demoScore('the-ribbon-stall', 'beginning');
  const judge = (marked: Score) => judgeLeverAttempt(marked, DEFAULT_LEVER_OPTIONS);
  const written = annotatedForLevers(score)!;

  it.each<[EngravingChoice]>([
    [{}],
    [{ leverLook: 'notes' }],
    [{ placement: 'above' }],
    [{ naming: 'german' }],
    [{ naming: 'fixed-do' }],
    [{ language: 'spanish' }],
    [{ level: 'beginner' }],
    [{ level: 'intermediate' }],
  ])('has full points when it is correct and written with %o', (choice) => {
    const { changes, points } = judge(annotatedForLevers(score, DEFAULT_LEVER_OPTIONS, choice)!);
    expect(changes.filter(({ verdict }) => verdict !== 'right')).toEqual([]);
    expect(points).toEqual({ given: points.most, most: 2 * (planLevers(score).moves.length + 1) });
  });

  it.each(ALL_LANGUAGES)('is marked in words of %s, and says what sounds instead', (language) => {
    const { naming } = LANGUAGES[language];
    const { marked } = wordsOf({ language });
    const text = written.source.text.replace(/([A-G])♯(\d)(?=<\/words>)/u, '$1♮$2');
    const attempt = judge(read(text));
    const told = attempt.changes
      .filter(({ verdict }) => verdict !== 'right')
      .map((change) => tellJudged(written, change, { harp: 'lever', language, naming }));
    expect(told.join('\n')).toContain(marked.verdicts.wrong);
    expect(told.join('\n')).not.toContain('pedal');
  });

  it('has a sign of its kind for each fault that is planted, whatever the fault', () => {
    const spoilt = Array.from({ length: 40 }, (_, i) => plantLeverFaults(written, 1, drawFrom(i + 1)));
    const verdicts = rollup(
      spoilt,
      (alike) => {
        // To judge one takes a plan of the whole demo: four of a kind show what its signs are.
        const judged = alike.slice(0, 4).map(({ score: one }) => judge(one));
        const found = judged.map(({ changes, points }) => {
          const signs = changes.flatMap(({ verdict }) => (verdict === 'right' ? [] : [verdict]));
          if (signs.length === 0) expect(points.given).toBe(points.most);
          return signs;
        });
        return new Set(found.flat());
      },
      ({ planted: [kind = ''] }) => kind,
    );
    const of = (kind: string): readonly Verdict[] => [...(verdicts.get(kind) ?? [])].sort();
    expect(of('a marking left out')).toEqual(['missing']);
    expect(of('a wrong sign')).toContain('wrong');
    expect(of('the letter beside')).toContain('wrong');
    expect(of('the octave beside')).toContain('wrong');
    expect(of('a marking twice')).toEqual(['needless']);
  });
});

describe('the marked pages', () => {
  const { naming, name, right } = inLanguage('english');

  const draw = async (written: Partial<Written>, points: boolean): Promise<string> => {
    const score = attempt({ ...right, ...written });
    const drawn = await drawAttempt(score, judgeAttempt(score), { naming, points }, 'svg');
    if (!drawn.ok) throw new Error(drawn.problem.code);
    return drawn.value.pages.join('\n');
  };

  it('have the sign under all that stands at its place: two diagrams, of which one is wrong', async () => {
    const diagram = (c: number): string =>
      direction(
        `<harp-pedals>${LETTERS.map((step) => `<pedal-tuning><pedal-step>${step}</pedal-step><pedal-alter>${step === 'C' ? c : 0}</pedal-alter></pedal-tuning>`).join('')}</harp-pedals>`,
      );
    const score = read(buildHarp(`${diagram(0)}${diagram(1)}${note('C4', 4)}`, note('C4', 4)));
    const drawn = await drawAttempt(score, judgeAttempt(score), { points: true }, 'svg');
    if (!drawn.ok) throw new Error(drawn.problem.code);
    const [page] = drawn.value.pages;
    const topsOf = (kind: string): readonly number[] =>
      groupsOf(page!, kind).map(({ attributes }) =>
        Number(/translate\([-\d.]+ ([-\d.]+)\)/.exec(attributes.transform!)![1]),
      );
    const [first, second] = topsOf('proof-marking');
    const [sign] = topsOf('judged-change');
    const scale = Number(
      /scale\(([\d.]+)\)/.exec(groupsOf(page!, 'judged-change')[0]!.attributes.transform!)![1],
    );
    // A diagram is more than six spaces high.
    expect(second! - first!).toBeGreaterThan(6 * scale);
    expect(sign! - second!).toBeGreaterThan(6 * scale);
  });

  it('have names in the words of an earlier annotation for levers as it printed them', async () => {
    const score = annotatedForLevers(demoScore('the-ribbon-stall', 'beginning'))!;
    const attempt = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
    const drawn = await drawAttempt(score, attempt, { points: true }, 'svg');
    if (!drawn.ok) throw new Error(drawn.problem.code);
    const [table] = groupsOf(drawn.value.pages[0]!, 'proof-marking');
    const { span } = table!;
    const text = drawn.value.pages[0]!.slice(span.start, span.end);
    expect(text).not.toContain(' ,');
  });

  it('have a sign at each change, alike in shape and colour where the verdict is', async () => {
    const page = await draw({ first: name('C', -1), early: name('D', 0) }, false);
    const signs = groupsOf(page, 'judged-change');
    expect(signs.map(({ attributes }) => attributes['data-verdicts'])).toEqual([
      'right',
      'needless',
      'wrong',
      'right',
    ]);
    const strokes = signs.map(
      ({ span }) => /<path d="([^"]*)" fill="none" stroke="(#\w+)"/.exec(page.slice(span.start, span.end))!,
    );
    const [first, needless, wrong, second] = strokes.map(([, shape, colour]) => `${shape} ${colour}`);
    expect(first).toBe(second);
    expect(new Set([first, needless, wrong]).size).toBe(3);
    expect(new Set(strokes.map(([, shape]) => shape)).size).toBe(3);
  });

  it('count points if that is wished', async () => {
    expect(await draw({ first: null }, true)).toContain('of 6 points');
    expect(await draw({ first: null }, false)).not.toContain('points');
  });

  it('say that nothing is wrong where nothing is', async () => {
    expect(await draw({}, true)).toContain('every change stands well');
  });
});
