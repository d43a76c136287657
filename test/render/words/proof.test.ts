import { describe, expect, it } from 'vitest';
import type { FactsOf, ProofFindingCode } from '../../../engine/findings/catalogue.ts';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import type { Position } from '../../../engine/harp/setting.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import type { Letter, Pitch } from '../../../engine/music/pitch.ts';
import type { AdviceFacts, AdviceKind } from '../../../engine/proof/advice.ts';
import { proofreadLevers } from '../../../engine/proof/levers/proofread-levers.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { noteNames } from '../../../render/facts/tell-finding.ts';
import { proofTelling } from '../../../render/proof/tell-proof.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { meiScore } from '../small-score.ts';

const OTHERS = (Object.keys(LANGUAGES) as Language[]).filter((language) => language !== 'english');

const pitch = (letter: Letter, alter: number, octave: number): Pitch => ({ letter, alter, octave });
const at = (letter: Letter, position: Position) => ({ letter, position });
const lever = (letter: Letter, alter: number, octave = 4) => ({ string: { letter, octave }, alter });

const B_FLAT = pitch('B', -1, 4);
const D_SHARP = pitch('D', 1, 5);
const PLACE = { bar: '12', beat: '2½' };

/** Some facts, and the same with any one of them otherwise. */
const eachOtherwise = <Facts extends object>(
  facts: NoInfer<Facts>,
  otherwise: Partial<NoInfer<Facts>>,
): readonly Facts[] => [
  facts,
  ...(Object.keys(otherwise) as (keyof Facts)[]).map((key) => ({ ...facts, [key]: otherwise[key] })),
];

const FAULT = {
  pitch: B_FLAT,
  isOfOrnament: false,
  needed: at('B', -1),
  stands: at('B', 0),
  markingPlace: PLACE,
};

const OTHER_FAULT = {
  pitch: D_SHARP,
  isOfOrnament: true,
  needed: at('B', 1),
  stands: at('D', 0),
  markingPlace: { bar: '13', beat: '2½' },
};

const LEVER_FAULT: FactsOf<'lever-note-not-served'> = {
  ...{ pitch: B_FLAT, isOfOrnament: false, isHeld: false, passes: [] },
  ...{ needed: lever('B', -1), stands: lever('B', 0), markingPlace: PLACE, landingBar: null },
};

const UNEASY = eachOtherwise<FactsOf<'marking-late'>>(
  { change: at('B', -1), pitch: B_FLAT },
  { change: at('D', 1), pitch: D_SHARP },
);

const UNEASY_LEVER = eachOtherwise<FactsOf<'lever-marking-late'>>(
  { change: lever('B', -1), pitch: B_FLAT },
  { change: lever('D', 1), pitch: D_SHARP },
);

const FACTS: { readonly [Code in ProofFindingCode]: readonly FactsOf<Code>[] } = {
  'no-markings': [{}],
  'words-not-understood': [{ words: 'B und D' }, { words: 'C und E' }],
  'notes-before-marking': [{ letters: ['B'] }, { letters: ['D'] }, { letters: ['B', 'D'] }],
  'note-not-served': [
    ...eachOtherwise<FactsOf<'note-not-served'>>(
      { ...FAULT, isHeld: false, passes: [] },
      { ...OTHER_FAULT, isHeld: true, passes: [2] },
    ),
    { ...FAULT, isHeld: false, passes: [1, 3] },
    { ...FAULT, markingPlace: { bar: '12', beat: '3' }, isHeld: false, passes: [] },
  ],
  'repeat-lands-wrong': eachOtherwise({ ...FAULT, landingBar: '1' }, { ...OTHER_FAULT, landingBar: '7' }),
  'change-too-quick': eachOtherwise<FactsOf<'change-too-quick'>>(
    { foot: 'left', change: at('B', -1), pitch: B_FLAT, barName: '12', lateSeconds: 0.2 },
    { foot: 'right', change: at('E', -1), pitch: D_SHARP, barName: '13', lateSeconds: 0.4 },
  ),
  'markings-contradict': eachOtherwise(
    { first: at('B', -1), second: at('B', 0) },
    { first: at('B', 1), second: at('D', 0) },
  ),
  'marking-needless': [
    ...(['stands', 'unasked', 'twice'] as const).map((why) => ({ change: at('B', -1), why })),
    { change: at('D', 1), why: 'stands' },
  ],
  'marking-bends-string': UNEASY,
  'marking-late': UNEASY,
  'marking-early': UNEASY,
  'glissando-unlike-key': eachOtherwise(
    { sounding: [at('B', 0)], expected: [at('B', -1)] },
    { sounding: [at('D', 0)], expected: [at('D', -1)] },
  ),
  'no-lever-markings': [{}],
  'lever-words-not-understood': [{ words: 'B und D' }, { words: 'C und E' }],
  'lever-name-not-on-harp': [
    ...(['string', 'tuning'] as const).flatMap((why) =>
      [
        { letter: 'B' as const, octave: 4, alter: 1 },
        { letter: 'D' as const, octave: null, alter: null },
      ].map((name) => ({ name, why, tuning: tuneToKey(-3) })),
    ),
    { name: { letter: 'B', octave: 4, alter: 1 }, why: 'tuning', tuning: tuneToKey(0) },
  ],
  'levers-not-told': [{}],
  'lever-note-not-served': [
    ...eachOtherwise<FactsOf<'lever-note-not-served'>>(LEVER_FAULT, {
      ...{ pitch: D_SHARP, isOfOrnament: true, isHeld: true, passes: [2] },
      ...{ needed: lever('B', 1), stands: lever('D', 0), markingPlace: null, landingBar: '7' },
    }),
  ],
  'lever-marking-without-time': eachOtherwise<FactsOf<'lever-marking-without-time'>>(
    { change: lever('B', -1), pitch: B_FLAT, barName: '12', why: 'no-hand' },
    { change: lever('D', 1), pitch: D_SHARP, barName: '13', why: 'too-close' },
  ),
  'lever-markings-contradict': eachOtherwise(
    { first: lever('B', -1), second: lever('B', 0) },
    { first: lever('B', -1, 5), second: lever('D', 0) },
  ),
  'lever-marking-needless': [
    ...(['stands', 'unasked', 'twice'] as const).map((why) => ({ change: lever('B', -1), why })),
    { change: lever('D', 1), why: 'stands' },
  ],
  'lever-marking-bends-string': UNEASY_LEVER,
  'lever-marking-late': UNEASY_LEVER,
  'lever-marking-early': UNEASY_LEVER,
};

const ADVICE: { readonly [Kind in AdviceKind]: readonly AdviceFacts<Kind>[] } = {
  'annotate-first': [{}],
  'name-pedals': [{}],
  'name-levers': [{}],
  'print-missing': [{ changes: [at('B', -1)] }, { changes: [at('D', 0), at('E', -1)] }],
  'print-levers-up': [{}],
  'note-against-note': eachOtherwise<AdviceFacts<'note-against-note'>>(
    { rival: at('B', -1), other: null },
    { rival: at('D', 1), other: D_SHARP },
  ),
  'lever-against-lever': [{ rival: lever('B', -1) }, { rival: lever('D', 1) }],
  'respell-or-wait': [{}],
  'omit-or-wait': [{}],
  'too-many-mistakes': [{}],
};

const ENGLISH_WORDS = /\b(the|is|are|cannot|of|before|while|bars?|string|foot|lever|not|marked|instead)\b/i;

describe.each(OTHERS)('proofreading in %s', (language) => {
  const words = wordsOf({ language });
  const names = noteNames(LANGUAGES[language].naming, words);

  const expectWhole = (sentence: string): void => {
    expect(sentence).toMatch(/^\p{Lu}.*[^.]\.$/u);
    expect(sentence).not.toMatch(/undefined|\bnull\b|NaN|\[object|\d\.\d/);
    expect(sentence).not.toMatch(ENGLISH_WORDS);
  };

  it.each(Object.keys(FACTS) as ProofFindingCode[])('%s names every one of its facts', (code) => {
    const tell = words.proof.sentences[code] as (facts: unknown, named: typeof names) => string;
    const told = FACTS[code].map((facts) => tell(facts, names));
    expect(new Set(told).size).toBe(FACTS[code].length);
    told.forEach(expectWhole);
  });

  it.each(Object.keys(ADVICE) as AdviceKind[])('the advice %s names every one of its facts', (kind) => {
    const tell = words.proof.advice[kind] as (facts: unknown, named: typeof names) => string;
    const told = ADVICE[kind].map((facts) => tell(facts, names));
    expect(new Set(told).size).toBe(ADVICE[kind].length);
    told.forEach(expectWhole);
  });

  it('every clause of a fix has all that is told to it', () => {
    for (const sentences of [words.proof.fixes, words.proof.leverFixes]) {
      for (const clause of Object.values(sentences)) {
        if (typeof clause === 'string') continue;
        const told = ['Aaa', 'Bbb', 'Ccc'].slice(0, clause.length);
        const isList = clause === words.proof.leverFixes.list;
        const said = isList
          ? words.proof.leverFixes.list(told)
          : (clause as (...texts: readonly string[]) => string)(...told);
        for (const text of told) expect(said).toContain(text);
        expect(said).not.toMatch(ENGLISH_WORDS);
      }
    }
  });
});

const open = (events: string): Score => {
  const opened = openScore(meiScore({ bars: ['c4.4 c#4.4 c4.4 f#4.4/R', 'c4.1/R'], events: { 0: events } }));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

describe('a proof', () => {
  const score = open('<dir staff="1" tstamp="1">D C B / E F G A</dir><dir staff="1" tstamp="3">C♮ C♯</dir>');
  const proofs = [proofreadScore(score), proofreadLevers(score, DEFAULT_LEVER_OPTIONS)];

  it('is told in English as the engine tells it', () => {
    const telling = proofTelling({ language: 'english', naming: 'english' });
    for (const { findings } of proofs) {
      expect(findings.length).toBeGreaterThan(0);
      for (const finding of findings) {
        expect(telling.finding(finding)).toBe(finding.sentence);
        for (const advice of finding.advice) {
          expect(finding.suggestions).toContain(telling.advice(advice));
        }
      }
    }
  });
});

describe('advice in English', () => {
  it('names notes as is asked for', () => {
    const facts = { changes: [at('B', -1), at('F', 1)] };
    const { advice } = proofTelling({ language: 'english', naming: 'german' });
    expect(advice({ kind: 'print-missing', facts })).toContain('Print it as B, Fis,');
  });
});
