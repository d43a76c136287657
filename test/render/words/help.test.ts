import { describe, expect, it } from 'vitest';
import {
  describeHelp,
  type Help,
  type HelpFacts,
  type HelpKind,
} from '../../../engine/findings/help/help.ts';
import type { ChangedNotes } from '../../../engine/findings/help/note-help.ts';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import type { Letter, Pitch } from '../../../engine/music/pitch.ts';
import { planPart } from '../../../engine/plan-part.ts';
import { tellFix, tellHelp } from '../../../render/facts/tell-help.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { smallPart } from '../../part-builder.ts';

const ALL = Object.keys(LANGUAGES) as Language[];
const OTHERS = ALL.filter((language) => language !== 'english');

const pitch = (letter: Letter, alter: number, octave: number): Pitch => ({ letter, alter, octave });

/** A string that is printed by its own name, or by another. */
const heard = (sounds: Pitch, written = sounds) => ({ pitch: sounds, written });

/** B is H in German, and D is Ré in French: the names tell whose they are. */
const B_FLAT = pitch('B', -1, 4);
const D_SHARP = pitch('D', 1, 5);
const CHANGED = {
  from: [B_FLAT],
  to: [pitch('A', 1, 4)],
  bars: [{ from: '12', until: '12' }],
  beats: ['1'],
  isGrace: false,
  twin: null,
  ornament: null,
  notes: 1,
} as const;
const OTHERWISE = {
  from: [D_SHARP],
  to: null,
  bars: [{ from: '13', until: '13' }],
  beats: ['1', '2½'],
  isGrace: true,
  twin: 'either',
  ornament: { what: 'trill', neighbours: [pitch('E', -1, 5)] },
  notes: 2,
} as const;
const RANGE = { lowest: { letter: 'C', octave: 1 }, highest: { letter: 'G', octave: 7 } } as const;
const OTHER_RANGE = { lowest: { letter: 'D', octave: 2 }, highest: { letter: 'A', octave: 6 } } as const;
const TUNED = { string: { letter: 'B', octave: 4 }, cents: -50 } as const;

/** Some facts, and the same with any one of them otherwise. */
const eachOtherwise = <Facts extends object>(
  facts: NoInfer<Facts>,
  otherwise: NoInfer<Facts>,
): readonly Facts[] => [
  facts,
  ...(Object.keys(otherwise) as (keyof Facts)[]).map((key) => ({ ...facts, [key]: otherwise[key] })),
];

const FACTS: { readonly [Kind in HelpKind]: readonly HelpFacts<Kind>[] } = {
  'change-notes': [
    ...eachOtherwise<ChangedNotes>(CHANGED, OTHERWISE).map((each) => ({ changes: [each] })),
    { changes: [CHANGED, OTHERWISE] },
    { changes: [{ ...CHANGED, twin: 'upper-staff' }] },
    { changes: [{ ...CHANGED, twin: 'lower-staff' }] },
    { changes: [{ ...CHANGED, twin: 'main-note' }] },
    { changes: [{ ...CHANGED, ornament: { what: 'ornament', neighbours: [D_SHARP, B_FLAT] } }] },
    { changes: [{ ...CHANGED, bars: [{ from: '', until: '' }] }] },
    { changes: [{ ...CHANGED, bars: [{ from: '12', until: '13' }] }] },
    { changes: [{ ...CHANGED, bars: ['12', '15'].map((bar) => ({ from: bar, until: bar })) }] },
    {
      changes: [{ ...CHANGED, from: [B_FLAT, pitch('B', -1, 5)], to: [pitch('A', 1, 4), pitch('A', 1, 5)] }],
    },
    { changes: [{ ...CHANGED, beats: [] }] },
  ],
  'write-for': eachOtherwise({ from: B_FLAT, to: D_SHARP }, { from: D_SHARP, to: B_FLAT }),
  'write-on-fixed-string': eachOtherwise(
    { to: B_FLAT, string: { letter: 'C', octave: 1 }, tuned: false },
    { to: D_SHARP, string: { letter: 'D', octave: 1 }, tuned: true },
  ),
  'one-hand-only': eachOtherwise({ pitch: B_FLAT, hand: 'left' }, { pitch: D_SHARP, hand: 'right' }),
  'write-one-as': [
    ...(['either', 'first', 'grace', 'second', 'only'] as const).map((which) => ({
      which,
      pitch: B_FLAT,
      to: pitch('A', 1, 4),
    })),
    { which: 'either', pitch: D_SHARP, to: pitch('A', 1, 4) },
    { which: 'either', pitch: B_FLAT, to: D_SHARP },
  ],
  'leave-out-first': eachOtherwise({ pitch: B_FLAT, isGrace: false }, { pitch: D_SHARP, isGrace: true }),
  'leave-one-out': [{}],
  'into-range': eachOtherwise({ pitch: B_FLAT, to: pitch('B', -1, 5) }, { pitch: D_SHARP, to: D_SHARP }),
  'octave-or-leave-out': eachOtherwise(
    { pitch: B_FLAT, to: pitch('B', -1, 5) },
    { pitch: D_SHARP, to: pitch('B', -1, 3) },
  ),
  'octave-stands-there': eachOtherwise(
    { pitch: B_FLAT, to: pitch('B', -1, 5) },
    { pitch: D_SHARP, to: pitch('B', -1, 3) },
  ),
  'replace-note': [{}],
  'or-leave-out': [{}],
  'leave-note-out': [{}],
  'ask-technician': [{}],
  'retune-another': [{}],
  'retune-strings': [
    { tuned: [TUNED], lost: [] },
    { tuned: [TUNED], lost: [B_FLAT, D_SHARP] },
    { tuned: [{ ...TUNED, cents: 50 }], lost: [] },
    { tuned: [TUNED, { string: { letter: 'D', octave: 3 }, cents: -40 }], lost: [] },
  ],
  'retuning-is-no-help': [{}],
  'tune-to-play': eachOtherwise<HelpFacts<'tune-to-play'>>(
    { tuning: tuneToKey(-3), missingNotes: 1, changes: 0, withoutTime: 0 },
    { tuning: tuneToKey(2), missingNotes: 3, changes: 1, withoutTime: 1 },
  ),
  'no-tuning-helps': eachOtherwise<HelpFacts<'no-tuning-helps'>>(
    { note: { letter: 'B', alter: -1 }, isGiven: true },
    { note: { letter: 'D', alter: 1 }, isGiven: false },
  ),
  'tune-instead': eachOtherwise<HelpFacts<'tune-instead'>>(
    { tuning: tuneToKey(-3), changes: 0 },
    { tuning: tuneToKey(2), changes: 4 },
  ),
  'write-in-key': [{ tonic: { letter: 'D', alter: -1 } }, { tonic: { letter: 'C', alter: -1 } }],
  'change-marking': [{ needed: { letter: 'B', position: -1 } }, { needed: { letter: 'B', position: 0 } }],
  'state-glissando': eachOtherwise<HelpFacts<'state-glissando'>>(
    { what: 'setting', glissandi: 1 },
    { what: 'notes', glissandi: 2 },
  ),
  'damp-earlier': [
    { letter: 'B', sounding: [] },
    { letter: 'D', sounding: [] },
    { letter: 'B', sounding: [heard(B_FLAT)] },
    { letter: 'B', sounding: [heard(D_SHARP)] },
    { letter: 'B', sounding: [heard(B_FLAT), heard(D_SHARP)] },
    { letter: 'B', sounding: [heard(B_FLAT, pitch('C', -2, 5))] },
  ],
  'damp-string': [{}],
  'move-harmonic': [{ range: RANGE }, { range: OTHER_RANGE }],
  'more-time': [{}],
  'more-time-or-second-harp': [{}],
  'more-time-or-leave-out': [{}],
  'more-time-for-feet': [{}],
  'more-time-for-hands': [{}],
  'unhurried-at': [{ percent: 72 }, { percent: 80 }],
  'more-time-for-lever': [{}],
  'rest-before-note': [{ seconds: 0.75 }, { seconds: 1 }],
  'rest-for-hand': [{ hand: 'left' }, { hand: 'right' }],
  'second-harp': [{}],
  'end-earlier': [
    ...(['tremolo', 'glissando', 'trill', 'ornament'] as const).map((what) => ({
      what,
      on: B_FLAT,
      before: D_SHARP,
    })),
    { what: 'trill', on: D_SHARP, before: D_SHARP },
    { what: 'trill', on: B_FLAT, before: B_FLAT },
  ],
  'other-hand-takes': eachOtherwise<HelpFacts<'other-hand-takes'>>(
    { hand: 'left', pitches: [B_FLAT] },
    { hand: 'right', pitches: [B_FLAT, D_SHARP] },
  ),
  'leave-out-of-chord': eachOtherwise({ notes: 1, isBroken: false }, { notes: 2, isBroken: true }),
  'break-chord': [{}],
  'leave-out-harmonic': [{}],
  'tremolo-of-two': [{ pitches: null }, { pitches: [B_FLAT, pitch('A', 1, 4)] }],
  'shorten-quiet-passage': [{ without: 'moves' }, { without: 'changes' }],
  'move-pin': [{}],
  'pin-elsewhere': [{}],
  'plan-one-player': [{}],
  'part-for-each-player': [{}],
  'mark-players': [{}],
  'without-other-fixes': [
    { fix: { kind: 'one-hand-only', facts: { pitch: B_FLAT, hand: 'right' } } },
    { fix: { kind: 'leave-one-out', facts: {} } },
  ],
};

const KINDS = Object.keys(FACTS) as HelpKind[];

const factsOf = (kind: HelpKind): readonly Help[] => FACTS[kind].map((facts) => ({ kind, facts }) as Help);

const tellIn = (language: Language, help: Help): string =>
  tellHelp(help, LANGUAGES[language].naming, wordsOf({ language }));

/** A note that is named by its letter; “A” is a word too. */
const LETTER_NAME = /(?<!\p{L})[B-G](?!\p{L})/u;

const ENGLISH_WORDS = /\b(the|is|are|has|cannot|of|before|while|bars?|string|foot|lever|not|write|take)\b/i;

describe.each(OTHERS)('what would help, in %s', (language) => {
  it.each(KINDS)('%s names every one of its facts', (kind) => {
    const told = factsOf(kind).map((help) => tellIn(language, help));
    expect(new Set(told).size).toBe(FACTS[kind].length);
    for (const sentence of told) {
      expect(sentence).toMatch(/^\p{Lu}.*[^.]\.$/u);
      expect(sentence).not.toMatch(/undefined|null|NaN|\[object|\d\.\d/);
      expect(sentence).not.toMatch(ENGLISH_WORDS);
    }
  });

  it('is never told of two kinds in the same words', () => {
    const told = KINDS.map((kind) => tellIn(language, factsOf(kind)[0]!));
    expect(new Set(told).size).toBe(KINDS.length);
  });
});

describe('what would help, in English', () => {
  it.each(KINDS)('%s is told as the engine tells it', (kind) => {
    for (const help of factsOf(kind)) expect(tellIn('english', help)).toBe(describeHelp(help));
  });

  it.each(KINDS)('%s names notes as it is asked to', (kind) => {
    for (const help of factsOf(kind)) {
      expect(tellHelp(help, 'italian', wordsOf({ language: 'english' }))).not.toMatch(LETTER_NAME);
    }
  });
});

describe('two notes that want one pedal', () => {
  const part = planPart(smallPart({ upper: 'C#4/4', lower: 'C3/4' }), {});
  const [finding] = part.plan.findings;

  it.each([
    ['german', 'Cis4 in Takt 1 als Des4 schreiben.', 'Eine der Noten einer anderen Harfe geben.'],
    ['french', 'Écrire Ré♭4 pour Do♯4 à la mesure 1.', 'Donner une des notes à une autre harpe.'],
    ['italian', 'Scrivere Re♭4 per Do♯4 a battuta 1.', 'Dare una delle note a un’altra arpa.'],
    ['spanish', 'Escriba Re♭4 por Do♯4 en el compás 1.', 'Dé una de las notas a otra arpa.'],
  ] as const)(
    'are helped in %s by a change of notes and by a player, with the names of that language',
    (language, fix, help) => {
      const words = wordsOf({ language });
      const { naming } = LANGUAGES[language];
      expect(finding!.fixes.map((each) => tellFix(each, naming, words))).toContain(fix);
      expect(finding!.help.map((each) => tellHelp(each, naming, words))).toEqual([help]);
    },
  );

  it('and a fix that has its price says so', () => {
    const fix = { ...finding!.fixes[0]!, moreMoves: 2 };
    expect(tellFix(fix, 'german', wordsOf({ language: 'german' }))).toMatch(
      / \(kostet höchstens 2 Wechsel mehr\)\.$/,
    );
    expect(tellFix({ ...fix, moreMoves: -1 }, 'italian', wordsOf({ language: 'italian' }))).toMatch(
      / \(risparmia almeno 1 cambio\)\.$/,
    );
  });
});
