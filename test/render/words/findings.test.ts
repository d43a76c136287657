import { describe, expect, it } from 'vitest';
import type { FactsOf, PassageCode, PlanFindingCode } from '../../../engine/findings/catalogue.ts';
import type { NoteNames } from '../../../engine/findings/note-names.ts';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { type Position, settingFrom } from '../../../engine/harp/setting.ts';
import type { Letter, Pitch } from '../../../engine/music/pitch.ts';
import { planPart } from '../../../engine/plan-part.ts';
import { noteNames, tellFinding } from '../../../render/facts/tell-finding.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { demoScore } from '../../demo-score.ts';
import { smallPart } from '../../part-builder.ts';
import { QUIET_MEASURES } from '../../quiet-measures.ts';

const ALL = Object.keys(LANGUAGES) as Language[];
const OTHERS = ALL.filter((language) => language !== 'english');

const pitch = (letter: Letter, alter: number, octave: number): Pitch => ({ letter, alter, octave });
const at = (letter: Letter, position: Position) => ({ letter, position });

/** A string that is printed by its own name. */
const heard = (sounds: Pitch) => ({ pitch: sounds, written: sounds });

/** B is H in German, and D is Ré in French: the names tell whose they are. */
const B_FLAT = pitch('B', -1, 4);
const D_SHARP = pitch('D', 1, 5);
const RANGE = { lowest: { letter: 'C', octave: 1 }, highest: { letter: 'G', octave: 7 } } as const;
const OTHER_RANGE = { lowest: { letter: 'D', octave: 2 }, highest: { letter: 'A', octave: 6 } } as const;
const TRILLED = { pitch: B_FLAT, what: 'trill', on: pitch('A', 0, 4) } as const;
const NATURALS = settingFrom(() => 0);
const FLATS = settingFrom(() => -1);

/** Some facts, and the same with any one of them otherwise. */
const eachOtherwise = <Facts extends object>(
  facts: NoInfer<Facts>,
  otherwise: NoInfer<Facts>,
): readonly Facts[] => [
  facts,
  ...(Object.keys(otherwise) as (keyof Facts)[]).map((key) => ({ ...facts, [key]: otherwise[key] })),
];

const HURRIED = [
  ...eachOtherwise<FactsOf<'feet-hurried-passage'>>(
    { moves: 9, seconds: 3.5, left: 6, right: 3 },
    { moves: 10, seconds: 4.5, left: 7, right: 4 },
  ),
  { moves: 9, seconds: 0, left: 6, right: 3 },
];

const RETUNED: readonly FactsOf<'string-retuned'>[] = [
  { tuned: [{ string: { letter: 'B', octave: 4 }, cents: -50 }] },
  { tuned: [{ string: { letter: 'D', octave: 4 }, cents: -50 }] },
  { tuned: [{ string: { letter: 'B', octave: 4 }, cents: 50 }] },
  { tuned: [{ string: { letter: 'B', octave: 4 }, cents: -40 }] },
];

/** Those that rest on which hand plays. */
const GUESSED_PASSAGES: readonly PassageCode[] = [
  'string-for-both-hands',
  'too-many-notes-in-hand',
  'stretch-too-wide',
  'too-many-harmonics',
];

const FACTS: { readonly [Code in PlanFindingCode]: readonly FactsOf<Code>[] } = {
  'string-for-both-hands': eachOtherwise(
    { string: B_FLAT, guessed: false },
    { string: D_SHARP, guessed: true },
  ),
  'too-many-notes-in-hand': eachOtherwise(
    { hand: 'left', notes: 5, guessed: false },
    { hand: 'right', notes: 6, guessed: true },
  ),
  'stretch-too-wide': eachOtherwise(
    { lowest: B_FLAT, highest: D_SHARP, guessed: false },
    { lowest: pitch('C', 0, 3), highest: pitch('E', 0, 6), guessed: true },
  ),
  'string-restruck-fast': [
    ...eachOtherwise<FactsOf<'string-restruck-fast'>>(
      { string: B_FLAT, seconds: 0.12, again: 'same' },
      { string: D_SHARP, seconds: 0.08, again: 'tremolo' },
    ),
    { string: B_FLAT, seconds: 0.12, again: pitch('B', 0, 4) },
  ],
  'harmonic-out-of-range': eachOtherwise(
    { string: B_FLAT, range: RANGE },
    { string: D_SHARP, range: OTHER_RANGE },
  ),
  'too-many-harmonics': eachOtherwise(
    { hand: 'left', harmonics: 5, most: 2, guessed: false },
    { hand: 'right', harmonics: 4, most: 1, guessed: true },
  ),
  'strings-to-retune': eachOtherwise(
    { tuning: tuneToKey(2), usual: tuneToKey(-3), changes: [at('B', 0)] },
    { tuning: tuneToKey(0), usual: tuneToKey(1), changes: [at('B', 0), at('E', 0)] },
  ),
  'no-string-in-tuning': eachOtherwise(
    { note: { letter: 'B', alter: 0 }, tuning: tuneToKey(-3), notes: 1 },
    { note: { letter: 'D', alter: 1 }, tuning: tuneToKey(0), notes: 3 },
  ),
  'no-free-hand': eachOtherwise(
    { pitch: B_FLAT, why: 'hands-play' },
    { pitch: D_SHARP, why: 'string-plucked' },
  ),
  'hand-too-busy': [{ pitch: B_FLAT }, { pitch: D_SHARP }],
  'other-hand-taken': eachOtherwise({ pitch: B_FLAT, hand: 'left' }, { pitch: D_SHARP, hand: 'right' }),
  'lever-short-lead': eachOtherwise(
    { pitch: B_FLAT, hand: 'left', seconds: 0.2 },
    { pitch: D_SHARP, hand: 'right', seconds: 0.1 },
  ),
  'lever-far-ahead': eachOtherwise(
    { pitch: B_FLAT, hand: 'left', seconds: 25 },
    { pitch: D_SHARP, hand: 'right', seconds: 30 },
  ),
  'hands-hurried-passage': HURRIED,
  'lever-restored': eachOtherwise(
    { pitch: B_FLAT, elsewhere: pitch('B', 0, 4) },
    { pitch: D_SHARP, elsewhere: pitch('D', 0, 5) },
  ),
  'lever-pin-not-honoured': (['no-changes-here', 'pin', 'no-moment', 'no-lever', 'note'] as const).flatMap(
    (why) =>
      (['up', 'down'] as const).flatMap((to) =>
        (['B', 'D'] as const).map((letter): FactsOf<'lever-pin-not-honoured'> => {
          const lever = { string: { letter, octave: 4 }, to };
          return why === 'note' ? { ...lever, why, bar: '12' } : { ...lever, why };
        }),
      ),
  ),
  'foot-too-busy': [
    ...eachOtherwise<FactsOf<'foot-too-busy'>>(
      { foot: 'left', change: at('B', -1), last: 'another' },
      { foot: 'right', change: at('E', -1), last: 'the same' },
    ),
    { foot: 'left', change: at('B', -1), last: 'together' },
  ],
  'pedal-in-two-positions': eachOtherwise(
    { change: at('B', -1), rival: at('B', 1), ofOrnaments: [] },
    { change: at('B', 0), rival: null, ofOrnaments: [TRILLED] },
  ),
  'pedals-together': eachOtherwise(
    { foot: 'left', change: at('B', -1) },
    { foot: 'right', change: at('E', -1) },
  ),
  'foot-crossed': eachOtherwise(
    { foot: 'left', change: at('B', -1) },
    { foot: 'right', change: at('E', -1) },
  ),
  'feet-hurried-passage': HURRIED,
  'repeat-restored': eachOtherwise(
    { change: at('B', -1), elsewhere: at('B', 1) },
    { change: at('B', 0), elsewhere: at('D', 0) },
  ),
  'pin-not-honoured': [
    { change: at('B', -1), why: 'no-moves-here' },
    { change: at('D', -1), why: 'no-moves-here' },
    { change: at('B', -1), why: 'needed-earlier' },
    { change: at('B', -1), why: 'no-moment' },
    { change: at('B', -1), why: 'foot-busy', foot: 'left' },
    { change: at('B', -1), why: 'foot-busy', foot: 'right' },
    { change: at('B', -1), why: 'note', needed: at('B', 1), bar: '12' },
    { change: at('B', -1), why: 'note', needed: at('B', 0), bar: '12' },
    { change: at('B', -1), why: 'note', needed: at('B', 1), bar: '13' },
    { change: at('B', -1), why: 'fixed-already', fixed: at('B', 1) },
    { change: at('B', -1), why: 'fixed-already', fixed: at('B', 0) },
  ],
  'marking-contradicts-notes': eachOtherwise(
    { marked: at('B', -1), needed: at('B', 1), bar: '12' },
    { marked: at('B', 0), needed: at('D', 1), bar: '13' },
  ),
  'out-of-range': eachOtherwise(
    { pitch: B_FLAT, range: RANGE, ofOrnaments: [] },
    { pitch: D_SHARP, range: OTHER_RANGE, ofOrnaments: [TRILLED] },
  ),
  'string-in-two-pitches': eachOtherwise(
    { string: { letter: 'B', octave: 4 }, rivals: [at('B', -1), at('B', 1)], ofOrnaments: [] },
    { string: { letter: 'D', octave: 4 }, rivals: [B_FLAT], ofOrnaments: [{ ...TRILLED, what: 'ornament' }] },
  ),
  'quarter-tone': eachOtherwise(
    { pitch: pitch('B', -0.5, 4), harp: 'pedal' },
    { pitch: pitch('D', 0.5, 4), harp: 'lever' },
  ),
  'double-accidental': eachOtherwise(
    { from: pitch('B', -2, 4), to: pitch('A', 0, 4) },
    { from: pitch('B', 2, 4), to: pitch('C', 1, 5) },
  ),
  'played-on-other-string': [
    ...eachOtherwise<FactsOf<'played-on-other-string'>>(
      { from: D_SHARP, to: pitch('E', -1, 5), isOfOrnament: false, times: 2, fromBar: '12' },
      { from: B_FLAT, to: pitch('A', 1, 4), isOfOrnament: true, times: 3, fromBar: '13' },
    ),
    { from: D_SHARP, to: pitch('E', -1, 5), isOfOrnament: false, times: 1, fromBar: '12' },
  ],
  'fixed-string-tuning': eachOtherwise(
    { string: { letter: 'D', octave: 1 }, change: at('D', 1) },
    { string: { letter: 'C', octave: 1 }, change: at('D', -1) },
  ),
  'fixed-string-in-two-pitches': [{ pitch: B_FLAT }, { pitch: D_SHARP }],
  'string-retuned': RETUNED,
  'string-tuned-higher': RETUNED,
  'pitch-lost-by-retuning': [{ pitch: B_FLAT }, { pitch: D_SHARP }],
  'octaves-differ': [
    { pitches: [B_FLAT, pitch('B', 0, 5)] },
    { pitches: [D_SHARP, pitch('B', 0, 5)] },
    { pitches: [B_FLAT, pitch('D', 0, 4)] },
  ],
  'ringing-string-moved': [
    { harp: 'pedal', change: at('B', -1), sounding: [heard(B_FLAT)] },
    { harp: 'pedal', change: at('D', 1), sounding: [heard(B_FLAT)] },
    { harp: 'pedal', change: at('B', -1), sounding: [heard(D_SHARP)] },
    { harp: 'pedal', change: at('B', -1), sounding: [B_FLAT, pitch('B', 0, 5)].map(heard) },
    { harp: 'pedal', change: at('B', -1), sounding: [] },
    { harp: 'pedal', change: at('D', -1), sounding: [] },
    { harp: 'lever', pitch: B_FLAT },
    { harp: 'lever', pitch: D_SHARP },
  ],
  'glissando-setting-guessed': eachOtherwise(
    { letters: ['B', 'D'], setting: FLATS, glissandi: 2, untilBar: '12' },
    { letters: ['B'], setting: NATURALS, glissandi: 3, untilBar: null },
  ),
  'flat-key-rings-fuller': eachOtherwise(
    { sharps: 5, twin: { letter: 'D', alter: -1 } },
    { sharps: 6, twin: { letter: 'B', alter: -1 } },
  ),
  'shared-notes-kept': eachOtherwise(
    { player: 2, bars: [{ from: '3', until: '5' }] },
    { player: 1, bars: [{ from: '8', until: '8' }] },
  ),
  'written-for-several': eachOtherwise({ players: 2, dividedFrom: ['7'] }, { players: 3, dividedFrom: [] }),
};

const CODES = Object.keys(FACTS) as PlanFindingCode[];

const sentencesOf = <Code extends PlanFindingCode>(code: Code, language: Language): readonly string[] => {
  const words = wordsOf({ language });
  return FACTS[code].map((facts) =>
    words.findings.sentences[code](facts, noteNames(LANGUAGES[language].naming, words)),
  );
};

const ENGLISH_WORDS = /\b(the|is|are|has|cannot|of|before|while|bars?|string|foot|lever|not)\b/i;

describe.each(OTHERS)('findings in %s', (language) => {
  it.each(CODES)('%s names every one of its facts', (code) => {
    const told = sentencesOf(code, language);
    expect(new Set(told).size).toBe(FACTS[code].length);
    for (const sentence of told) {
      expect(sentence).toMatch(/^\p{Lu}.*[^.]\.$/u);
      expect(sentence).not.toMatch(/undefined|null|NaN|\[object|\d\.\d/);
      expect(sentence).not.toMatch(ENGLISH_WORDS);
    }
  });

  it('several places are told together with how many they are', () => {
    const { passages } = wordsOf({ language }).findings;
    for (const code of Object.keys(passages) as PassageCode[]) {
      const [told, guessed] = [passages[code](7, false), passages[code](7, true)];
      expect(told, code).toMatch(/^[\p{Lu}7].*\.$/u);
      expect(told, code).toContain('7');
      expect(guessed, code).toMatch(/\.$/u);
      for (const each of [told, guessed]) expect(each, code).not.toMatch(ENGLISH_WORDS);
      const saysSo = GUESSED_PASSAGES.includes(code);
      expect(guessed.startsWith(told) && guessed.length > told.length, code).toBe(saysSo);
    }
  });
});

describe('findings in English', () => {
  /** A note that is named by its letter; “A” is a word too. */
  const LETTER_NAME = /(?<!\p{L})[B-G](?!\p{L})/u;

  it.each(CODES)('%s names notes as it is asked to', (code) => {
    const words = wordsOf({ language: 'english' });
    const sentence = words.findings.sentences[code] as (facts: unknown, names: NoteNames) => string;
    for (const facts of FACTS[code]) {
      expect(sentence(facts, noteNames('italian', words))).not.toMatch(LETTER_NAME);
    }
  });
});

describe('a busy foot', () => {
  it.each([
    ['english', 'The left foot has no time for E♭: it has only just moved another pedal.'],
    ['german', 'Der linke Fuß hat keine Zeit für Es: Er hat eben erst ein anderes Pedal bewegt.'],
    ['french', 'Le pied gauche n’a pas le temps pour Mi♭ : il vient de déplacer une autre pédale.'],
    ['italian', 'Il piede sinistro non ha tempo per Mi♭: ha appena mosso un altro pedale.'],
    ['spanish', 'El pie izquierdo no tiene tiempo para Mi♭: acaba de mover otro pedal.'],
  ] as const)('is told in %s with the names of that language', (language, sentence) => {
    const words = wordsOf({ language });
    const facts = { foot: 'left', change: at('E', -1), last: 'another' } as const;
    const told = words.findings.sentences['foot-too-busy'](
      facts,
      noteNames(LANGUAGES[language].naming, words),
    );
    expect(told).toBe(sentence);
  });
});

describe('two changes of one foot or hand', () => {
  const reason = (language: Language, left: number, harp: 'pedal' | 'lever'): string =>
    wordsOf({ language }).difficulty.reasons.shortestSpacing(
      { ...QUIET_MEASURES, shortestSpacing: { left, right: null } },
      harp,
    );

  it.each([
    ['english', 'The left foot has to move two pedals at the same moment.', 'set two levers'],
    ['german', 'Der linke Fuß muss zugleich zwei Pedale bewegen.', 'zwei Klappen stellen'],
    ['french', 'Le pied gauche doit changer deux pédales en même temps.', 'placer deux leviers'],
    ['italian', 'Il piede sinistro deve muovere due pedali insieme.', 'mettere due levette'],
    ['spanish', 'El pie izquierdo debe mover dos pedales a la vez.', 'poner dos palancas'],
  ] as const)('at one moment are told so in %s, not as 0.00 s apart', (language, feet, levers) => {
    expect(reason(language, 0, 'pedal')).toBe(feet);
    expect(reason(language, 0.004, 'lever')).toContain(levers);
    expect(reason(language, 0.25, 'pedal')).toMatch(/0[.,]25 s/);
  });
});

describe('a tuning', () => {
  const apart = [{ string: { letter: 'F', octave: 4 }, alter: 1 }] as const;

  it.each([
    ['english', 'E♭ major, F♯4', 'C D E F G A B♯, F♯4'],
    ['german', 'Es-Dur, Fis4', 'C D E F G A His, Fis4'],
    ['french', 'Mi♭ majeur, Fa♯4', 'Do Ré Mi Fa Sol La Si♯, Fa♯4'],
  ] as const)('with a string tuned apart is named in %s as notes are there', (language, key, letters) => {
    const { tuning } = noteNames(LANGUAGES[language].naming, wordsOf({ language }));
    expect(tuning({ ...tuneToKey(-3), exceptions: apart })).toBe(key);
    const keyless = { letters: settingFrom((letter) => (letter === 'B' ? 1 : 0)), exceptions: apart };
    expect(tuning(keyless)).toBe(letters);
  });
});

describe('a planned part', () => {
  const parts = [
    planPart(smallPart({ upper: 'C4/1:4 C#4/1:4 C4/1:4 C#4/1:4 r/3', quartersPerMinute: 240 }), {}),
    planPart(
      smallPart({ upper: 'D4+E4+F4+G4/2 D#4+Eb4+F#4+G#4/2 | Fb4/2 B##4/2', lower: 'D1/4 | Db1/4' }),
      {},
    ),
    planPart(demoScore('the-ribbon-stall'), { levers: {} }),
  ];

  it('is told in English as the engine tells it', () => {
    for (const { plan } of parts) {
      expect(plan.findings.length).toBeGreaterThan(0);
      for (const finding of plan.findings) {
        expect(tellFinding(finding, 'english', wordsOf({ language: 'english' }))).toBe(finding.sentence);
      }
    }
  });

  it.each(OTHERS)('does not tell of two troubles in the same words where English has two: %s', (language) => {
    for (const { plan } of parts) {
      const inEnglish = new Set(plan.findings.map(({ sentence }) => sentence));
      const here = plan.findings.map((finding) =>
        tellFinding(finding, LANGUAGES[language].naming, wordsOf({ language })),
      );
      expect(new Set(here).size).toBe(inEnglish.size);
    }
  });
});
