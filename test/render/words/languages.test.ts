import { describe, expect, it } from 'vitest';
import { stringsWithLevers } from '../../../engine/harp/levered-strings.ts';
import { E_FLAT_TUNING } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { memoize } from '../../../engine/memoize.ts';
import { ZERO } from '../../../engine/music/rational.ts';
import { planPart } from '../../../engine/plan-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { tellTuning } from '../../../render/facts/tell-tuning.ts';
import { drawHandout } from '../../../render/handouts/draw-handout.ts';
import { HANDOUT_NAMES } from '../../../render/handouts/handout-words.ts';
import { drawLeverChange, drawLeverStart, drawLeverTableAlone } from '../../../render/levers/draw-levers.ts';
import { describePage } from '../../../render/printed/page-description.ts';
import { nameInWords } from '../../../render/sheets/note-words.ts';
import { tellCause } from '../../../render/study/tell-cause.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { demoScore } from '../../demo-score.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { oneIn } from '../../thorough.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore } from '../small-score.ts';
import { bindPlanned } from '../study/bound-part.ts';
import { findTouchingWords } from '../touching-words.ts';

const ALL = Object.keys(LANGUAGES) as Language[];
const OTHERS = ALL.filter((language) => language !== 'english');

/** Where two languages have one word. */
const SHARED = new Set(['', 'Pedal', 'Glissandi', 'Glissando', 'Note', 'Hand', 'Page']);

/** Every plain word of a catalogue, by its path. */
const plainWords = (entry: unknown, path = ''): [string, string][] => {
  if (typeof entry === 'string') return [[path, entry]];
  if (typeof entry !== 'object' || entry === null) return [];
  return Object.entries(entry).flatMap(([key, each]) => plainWords(each, `${path}.${key}`));
};

const LANTERNS = demoScore('lanterns-at-the-lock', 'beginning');

const LANTERN_PLAN = planPart(LANTERNS, {});

const RIBBONS = demoScore('the-ribbon-stall');

const RIBBON_PLAN = planPart(RIBBONS, { levers: {} });

/** A foot without time, a string without a disc, a repeat: the sheets have much to tell. */
const TROUBLED: Score = smallPart({
  upper: 'C4/1 C#4/1 C4/1 C#4/1 | D4+E4+F4+G4/2 D#4+Eb4+F#4+G#4/2 | Fb4/2 B#4/2 | C4/4',
  lower: 'Db1/4 | r/4 | D1/4 | r/4',
  playOrder: [0, 1, 2, 0, 1, 2, 3],
  quartersPerMinute: 200,
});

const TROUBLED_PLAN = planPart(TROUBLED, {});

const openMei = (score: Parameters<typeof meiScore>[0]): Score => {
  const opened = openScore(meiScore(score), {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** What the sheets of a study edition say in whole sentences. */
const sheetSentences = memoize(
  (language: Language): ReadonlySet<string> => {
    const pages = [
      bindPlanned(TROUBLED, TROUBLED_PLAN, { language }),
      bindPlanned(RIBBONS, RIBBON_PLAN, { language }),
    ].flatMap(({ bound }) => bound.pages);
    const found = pages.join('').matchAll(/>([^<>]*[a-z]{2} [a-z]{2}[^<>]*)</g);
    return new Set([...found].map(([, text]) => text!.trim()));
  },
  ([a], [b]) => a === b,
);

/** A string without a disc, a change, a repeat, a place that is not playable, and, as an exercise, boxes to write in. */
const SPOKEN: Score = openMei({
  title: '1812',
  bars: ['c4.2 c#4.2 / d1.1', 'f4.2 f#4.2', 'g4+g#5.1', 'c4.1'],
  measures: { 2: 'right="rptend"' },
});

/** What voices read of pages with every kind of drawing: the titles in the pictures, and the words of the PDF. */
const spokenWords = memoize(
  async (language: Language): Promise<ReadonlySet<string>> => {
    const pages: string[] = [];
    for (const harp of [
      planPart(SPOKEN, {}),
      leverPlanFor(SPOKEN, { up: 'A4', moves: ['1.3 F#4', '2.3 C#4'] }),
    ])
      for (const leverLook of ['names', 'notes'] as const) {
        const edition = leverLook === 'names' ? 'exercise' : 'part';
        const made = await annotator.engrave(SPOKEN, harp, { language, edition, leverLook }, 'svg');
        if (!made.ok) throw new Error(made.problem.code);
        pages.push(...made.value.pages);
      }
    const told = pages.flatMap((page) => [
      ...[...page.matchAll(/<(title|desc)>([^<]*)</g)].map(([, , text]) => text!),
      describePage(page, '', 1, language),
    ]);
    return new Set(
      told
        .join(' ')
        .toLowerCase()
        .match(/\p{L}{3,}/gu),
    );
  },
  ([a], [b]) => a === b,
);

const PAPERS = ['a4', { widthMm: 100, heightMm: 130 }] as const;

describe.each(OTHERS)('in %s', (language) => {
  it('nothing is left in English', () => {
    const english = new Map(plainWords(wordsOf({ language: 'english' })));
    const same = plainWords(wordsOf({ language })).filter(
      ([path, words]) => english.get(path) === words && !SHARED.has(words),
    );
    expect(same).toEqual([]);
  });

  it('the sheets of a study edition hold no sentence of the English one', () => {
    const inEnglish = sheetSentences('english');
    const here = sheetSentences(language);
    expect(here.size).toBeGreaterThan(20);
    const ofTheFile = Object.values(RIBBONS.titles);
    expect([...here].filter((text) => inEnglish.has(text) && !ofTheFile.includes(text))).toEqual([]);
  });
});

/** Words that two languages have alike, and a name. */
const ALIKE = new Set(['verovio', 'note', 'page', 'pedal']);

describe('what is said of pages', () => {
  it.each(OTHERS)('has no English word in %s', async (language) => {
    const inEnglish = await spokenWords('english');
    const here = await spokenWords(language);
    expect(here.size).toBeGreaterThan(25);
    expect([...here].filter((word) => inEnglish.has(word) && !ALIKE.has(word))).toEqual([]);
  });
});

describe.each(ALL)('in %s', (language) => {
  it('notes are named as the language names them, unless other names are asked for', () => {
    expect(completeEngraving({ language }).naming).toBe(LANGUAGES[language].naming);
    expect(completeEngraving({ language, naming: 'german' }).naming).toBe('german');
  });

  it.each(language === 'german' ? PAPERS : oneIn(2, PAPERS))(
    'the sheets of a study edition have no words that touch, on %s',
    (paper) => {
      for (const [score, plan] of [
        [LANTERNS, LANTERN_PLAN],
        [TROUBLED, TROUBLED_PLAN],
      ] as const) {
        const { pages, missing } = bindPlanned(score, plan, { language, paper }).bound;
        expect(pages.flatMap(findTouchingWords)).toEqual([]);
        expect(missing).toEqual([]);
      }
      const levers = bindPlanned(RIBBONS, RIBBON_PLAN, { language, paper }).bound;
      expect(levers.pages.flatMap(findTouchingWords)).toEqual([]);
    },
  );

  // German has the longest words.
  it.each(language === 'german' ? HANDOUT_NAMES : oneIn(4, HANDOUT_NAMES))(
    'the wall chart %s has no words that touch',
    async (name) => {
      const drawn = await drawHandout(name, { language });
      if (!drawn.ok) throw new Error(drawn.problem.code);
      expect(drawn.value.pages.flatMap(findTouchingWords)).toEqual([]);
    },
  );
});

describe('the names of keys', () => {
  it.each([
    ['english', 'D♭ major', 'B♭ minor'],
    ['german', 'Des-Dur', 'b-Moll'],
    ['french', 'Ré♭ majeur', 'Si♭ mineur'],
    ['italian', 'Re♭ maggiore', 'Si♭ minore'],
    ['spanish', 'Re♭ mayor', 'Si♭ menor'],
  ] as const)('are those of the language: %s', (language, major, minor) => {
    const { notes } = wordsOf({ language });
    const { naming } = LANGUAGES[language];
    expect(notes.major(nameInWords('D', -1, naming))).toBe(major);
    expect(notes.minor(nameInWords('B', -1, naming))).toBe(minor);
  });
});

describe('what stands on the pages of music', () => {
  const START = {
    kind: 'levers' as const,
    ...{ id: 'marking-1', at: ZERO, bar: 0, beat: ZERO, graceNote: null, isReminder: false },
    tuning: E_FLAT_TUNING,
    up: [{ string: { letter: 'A' as const, octave: 4 }, alter: 0 as const }],
    levers: stringsWithLevers(LEVER_HARP),
  };
  const CHANGE = {
    changes: [{ string: { letter: 'F', octave: 4 }, alter: 1, hand: 'left' }],
    ...{ onReturn: [], atOneTime: [], inWords: [] },
    timesPlayed: 1,
  } as const;

  it.each([
    ['english', 'Tuning E♭ major Levers up A♮4', 'F♯4 l.h.'],
    ['german', 'Stimmung Es-Dur Klappen oben A4', 'Fis4 l.H.'],
    ['french', 'Accordage Mi♭ majeur Leviers levés La♮4', 'Fa♯4 m.g.'],
    ['italian', 'Accordatura Mi♭ maggiore Levette su La♮4', 'Fa♯4 m.s.'],
    ['spanish', 'Afinación Mi♭ mayor Palancas subidas La♮4', 'Fa♯4 m.i.'],
  ] as const)('is in %s', (language, start, change) => {
    const engraving = completeEngraving({ language, leverHands: true }, 'lever');
    expect(drawLeverStart(START, engraving).text).toBe(start);
    expect(drawLeverChange(CHANGE, engraving).text).toBe(change);
    // Told again, the levers have the names of that language too.
    expect(start).toContain(drawLeverTableAlone(START, engraving).text);
  });

  it('says the pitch of a string without a disc in words, where naturals have no sign', () => {
    expect(
      tellTuning(planPart(demoScore('lanterns-at-the-lock'), {}), 'german', wordsOf({ language: 'german' }))
        .sentences,
    ).toEqual(['D1 auf D Auflöser: Diese Saite hat keine Stimmscheibe.']);
  });
});

describe('a sentence after a label', () => {
  it.each([
    ['english', 'Bars 9–16: up to 4 pedal moves in ten seconds.'],
    ['german', 'Takte 9–16: bis zu 4 Pedalwechsel in zehn Sekunden.'],
    ['french', 'Mesures 9–16 : jusqu’à 4 changements de pédale en dix secondes.'],
    ['italian', 'Battute 9–16: fino a 4 cambi di pedale in dieci secondi.'],
    ['spanish', 'Compases 9–16: hasta 4 cambios de pedal en diez segundos.'],
  ] as const)('begins small in %s, but for whole sentences in German', (language, sentence) => {
    const { measures } = LANTERN_PLAN.plan.summary.difficulty;
    const cause = {
      kind: 'measure',
      name: 'mostInTenSeconds',
      bars: { from: '9', until: '16' },
      measures: { ...measures, mostInTenSeconds: 4 },
    } as const;
    expect(tellCause(cause, 'pedal', { language })).toBe(sentence);
  });
});
