import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FINDINGS, type PedalFindingCode } from '../../../engine/findings/catalogue.ts';
import { describeFinding } from '../../../engine/findings/describe-finding.ts';
import { extentOf, nameExtent } from '../../../engine/findings/extent.ts';
import { help } from '../../../engine/findings/help/help.ts';
import { joinFindings } from '../../../engine/findings/join-findings.ts';
import type { PedalFinding } from '../../../engine/findings/model.ts';
import { type NoteFix, noteFix } from '../../../engine/findings/model.ts';
import { orderForPeople } from '../../../engine/findings/order-findings.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { listUnplayablePlaces } from '../../../render/markings/unplayable-places.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import '../../property-seed.ts';
import { cases } from '../../thorough.ts';

const findingsOf = (part: SmallPart): readonly PedalFinding[] => planPedals(smallPart(part)).findings;

const FIVE = 'C4+E4+G4+B4+D5/4';

/** Bars for the right hand, with a full chord of the left under each of five notes. */
const overChords = (upper: string): SmallPart => ({
  upper,
  lower: upper
    .split('|')
    .map((bar) => (bar.includes('+') ? 'C3+E3+G3+B3/4' : 'C3/4'))
    .join(' | '),
});

describe('the same trouble in a row', () => {
  it('is one finding that tells how far it goes: five notes for one hand in two bars', () => {
    const found = findingsOf(overChords(`${FIVE} | ${FIVE} | C4/4`));
    expect(found.map(({ code }) => code)).toEqual(['too-many-notes-in-hand']);
    expect(nameExtent(extentOf(found[0]!))).toBe('bars 1–2, 10 notes');
    expect(found[0]!.sentence).toContain('in 2 chords');
  });

  it('goes on over one bar without it, and ends where two bars have none', () => {
    const extents = (upper: string) =>
      findingsOf(overChords(upper)).map((each) => nameExtent(extentOf(each)));
    expect(extents(`${FIVE} | C4/4 | ${FIVE}`)).toEqual(['bars 1–3, 10 notes']);
    expect(extents(`${FIVE} | C4/4 | C4/4 | ${FIVE}`)).toEqual(['bar 1, beat 1', 'bar 4, beat 1']);
  });

  it('keeps a sentence, a number on the page and the fixes for each place: A7 and B7 are no strings', () => {
    const score = smallPart({ upper: 'A7/1 B7/1 C4/2 | A7/4' });
    const plan = planPedals(score);
    expect(plan.findings).toHaveLength(1);
    expect(plan.findings[0]!.places.map(({ sentence }) => sentence.slice(0, 30))).toEqual([
      'The harp has no string for A7:',
      'The harp has no string for B7:',
      'The harp has no string for A7:',
    ]);
    expect(
      listUnplayablePlaces(score, plan).map(({ number, barNumber, beat, findings }) => [
        number,
        barNumber,
        beat.num,
        findings,
      ]),
    ).toEqual([
      [1, '1', 1, [0]],
      [2, '1', 2, [0]],
      [3, '2', 1, [0]],
    ]);
  });

  it('calls no note a matter of both hands that two voices of one staff share: its two stems are one stroke', () => {
    const score = smallPart({ upper: 'r/4', lower: 'A2+A2/4' });
    const [up, down] = score.notes;
    const inVoices: Score = {
      ...score,
      notes: [
        { ...up!, stem: 'up' },
        { ...down!, stem: 'down', voice: '2', chord: 'other' },
      ],
    };
    expect(planPedals(inVoices).findings).toEqual([]);
  });

  it('says of each fix which bar it is for: C4 for both hands, twice', () => {
    const [found] = findingsOf({ upper: 'C4/4 | C4/4', lower: 'C4/4 | C4/4' });
    expect(found!.fixes.map(({ sentence }) => sentence)).toContain(
      'Bar 2: Play the C4 with the right hand only.',
    );
    expect(found!.suggestions[0]).toBe('At both places: play the C4 with the right hand only.');
  });

  it('says of each fix which beat it is for where a bar has several, and one that serves two places once', () => {
    const [found] = findingsOf({ upper: 'C4/2 D4/2 | C4/4', lower: 'C4/2 D4/2 | C4/4' });
    const sentences = found!.fixes.map(({ sentence }) => sentence);
    expect(sentences).toContain('Bar 1, beat 1: Play the C4 with the right hand only.');
    expect(sentences).toContain('Bar 1, beat 3: Play the D4 with the right hand only.');
    expect(new Set(sentences).size).toBe(sentences.length);
    const changes = found!.fixes.map((fix) => JSON.stringify(fix.changes));
    expect(new Set(changes).size).toBe(changes.length);
  });

  it('says of each advice which places it is for, and of one for all of them nothing: C4, then F4 to be damped', () => {
    const score = smallPart({ upper: 'C4/4 | C4/4' });
    const ringing = (bar: number, beat: number, letter: 'C' | 'F') =>
      describeFinding(
        score,
        'ringing-string-moved',
        { harp: 'pedal', change: { letter, position: 1 }, sounding: [] },
        {
          place: { bar, at: { num: bar * 4 + beat - 1, den: 1 } },
          help: [help('damp-earlier', { letter, sounding: [] }), help('more-time', {})],
        },
      );
    const [found] = joinFindings<PedalFindingCode>([
      ringing(0, 1, 'C'),
      ringing(0, 3, 'F'),
      ringing(1, 1, 'C'),
    ]);
    expect(found!.suggestions).toEqual([
      'Bar 1, beat 1; bar 2: Damp the earlier C before the change, or shorten it.',
      'Take more time here.',
      'Bar 1, beat 3: Damp the earlier F before the change, or shorten it.',
    ]);
  });

  it('is told on its own where each is a thing to do: D1 and C1 to tune before the piece', () => {
    const codes = findingsOf({ upper: 'r/4', lower: 'D1/2 C1/2' }).map(({ code }) => code);
    expect(codes).toEqual(['fixed-string-tuning', 'fixed-string-tuning']);
  });
});

describe('a fast change draws one finding', () => {
  it('of a string plucked again as C♯4 after a grace note C4, and still ringing when it moves', () => {
    const found = findingsOf({ upper: 'r/1 (C4) C#4/1' });
    expect(found.map(({ code }) => code)).toEqual(['string-restruck-fast']);
    expect(found[0]!.suggestions.join(' ')).toContain('Damp C4');
  });

  it('of two pedals of one foot at once, each plucked again: one stops the foot, one is a string too fast', () => {
    const found = findingsOf({ upper: 'C4+D4/1:4 C#4+D#4/1:4 r/1', quartersPerMinute: 240 });
    expect(found.map(({ code }) => code).sort()).toEqual(['foot-too-busy', 'string-restruck-fast']);
  });

  it('but two troubles where the string is only plucked again, and the change is another: C4 C4 C♯5', () => {
    const codes = findingsOf({ upper: 'C4/1:4 C4/1:4 (C#5) r/1', quartersPerMinute: 240 }).map(
      ({ code }) => code,
    );
    expect(codes).toContain('string-restruck-fast');
    expect(codes).toContain('ringing-string-moved');
  });
});

describe('where there is no time nobody hurries', () => {
  const FAST = 'C4+E4+D4+F4/1 C#4+E4/1 D#4+F#4/1 C4+E4/1 | D4+F4/1 C#4+F#4/1 D#4+F4/1 C4+F#4/1';
  const TOO_FAST = 'C4+D4/1:4 C#4+D#4/1:4 C4+D4/1:4 r/1:4 r/3';
  const ABOUT_FEET = ['foot-too-busy', 'feet-hurried-passage'];
  const barsOf = (found: readonly PedalFinding[]) =>
    found
      .filter(({ code }) => ABOUT_FEET.includes(code))
      .map(({ code, places }) => [code, places[0]!.bar, places.at(-1)!.bar]);

  it('eight changes in two seconds of which three cannot be made are one finding, the graver', () => {
    const upper = 'C4+D4/1:4 C#4+D#4/1:4 C4+D4/1:4 C#4+D#4/1:4 E4/1 E#4+F4/1 E4+F#4/1';
    expect(barsOf(findingsOf({ upper, quartersPerMinute: 90 }))).toEqual([['foot-too-busy', 0, 0]]);
  });

  it('and hurry is told of the bars on either side, where these alone are too fast', () => {
    const found = findingsOf({ upper: `${FAST} | ${TOO_FAST} | ${FAST}`, quartersPerMinute: 120 });
    expect(barsOf(found)).toEqual([
      ['feet-hurried-passage', 0, 1],
      ['foot-too-busy', 2, 2],
      ['feet-hurried-passage', 3, 4],
    ]);
  });

  it('no bar has both, in any part', () => {
    const chord = fc.constantFrom('C4+D4', 'C#4+D#4', 'C4+D#4', 'E4+F#4', 'E#4+F4', 'G4+Ab4', 'G#4');
    const beat = fc.oneof(
      chord.map((each) => `${each}/1`),
      fc.tuple(chord, chord).map(([one, other]) => `${one}/1:2 ${other}/1:2`),
    );
    const bar = fc.tuple(beat, beat, beat, beat).map((beats) => beats.join(' '));
    const part = fc.array(bar, { minLength: 1, maxLength: 5 }).map((bars) => bars.join(' | '));
    fc.assert(
      fc.property(part, fc.constantFrom(60, 90, 120), (upper, quartersPerMinute) => {
        const ranges = barsOf(findingsOf({ upper, quartersPerMinute }));
        for (const [code, first] of ranges) {
          const covering = ranges.filter(([, from, until]) => from! <= first! && first! <= until!);
          expect(covering.map(([other]) => other)).toEqual([code]);
        }
      }),
      { numRuns: cases(20) },
    );
  });
});

describe('whether a hand is guessed', () => {
  it('is said of the passage if it is at one of its places: by the staff in bar 1, by “m.d.” in bar 2', () => {
    const told = (guessed: readonly boolean[]) =>
      joinFindings<PedalFindingCode>(
        guessed.map((each, bar) =>
          describeFinding(
            smallPart({ upper: 'C4/4 | C4/4' }),
            'too-many-notes-in-hand',
            { hand: 'right', notes: 5, guessed: each },
            { place: { bar, at: { num: bar * 4, den: 1 } } },
          ),
        ),
      ).map(({ told, sentence }) => [told.guessed, sentence.includes('guessed')]);
    expect(told([true, false])).toEqual([[true, true]]);
    expect(told([false, false])).toEqual([[false, false]]);
    expect(told([true])).toEqual([[true, true]]);
  });
});

describe('joining any findings', () => {
  const anyFinding = fc
    .record({
      code: fc.constantFrom<PedalFindingCode>(
        'foot-too-busy',
        'string-restruck-fast',
        'ringing-string-moved',
        'too-many-notes-in-hand',
        'repeat-restored',
        'out-of-range',
      ),
      bar: fc.nat({ max: 14 }),
      notes: fc.uniqueArray(
        fc.nat({ max: 20 }).map((n) => `n${n}`),
        { maxLength: 4 },
      ),
      beat: fc.integer({ min: 1, max: 4 }),
      fixes: fc.array(fc.constantFrom('Write D♭4.', 'Write C♯4.'), { maxLength: 2 }),
    })
    .map(({ code, bar, notes, beat, fixes }): PedalFinding => {
      const place = {
        bar,
        barNumber: `${bar + 1}`,
        barName: `${bar + 1}`,
        beat: { num: beat, den: 1 },
        staff: 1,
        hand: null,
        notes,
        sentence: `${code} in ${bar}`,
      };
      return {
        ...place,
        code,
        severity: FINDINGS[code].severity,
        told: { kind: 'place', code, facts: {}, guessed: false } as PedalFinding['told'],
        suggestions: [...fixes, 'Take more time here.'],
        help: [help('more-time', {})],
        fixes: fixes.map((sentence) => ({
          sentence,
          told: { kind: 'leave-one-out', facts: {} },
          changes: [
            { kind: 'omit', note: `n${bar % 5} ${sentence}`, from: { letter: 'C', alter: 1, octave: 4 } },
          ],
          moreMoves: 0,
          places: [0],
        })),
        places: [place],
      };
    });
  const anyFindings = fc.array(anyFinding, { maxLength: 30 });
  const all = <Item>(findings: readonly PedalFinding[], of: (finding: PedalFinding) => readonly Item[]) =>
    new Set(findings.flatMap(of));

  it('loses no note, no fix and no advice', () => {
    fc.assert(
      fc.property(anyFindings, (findings) => {
        const joined = joinFindings<PedalFindingCode>(findings);
        expect(all(joined, ({ notes }) => notes)).toEqual(all(findings, ({ notes }) => notes));
        const changed = ({ fixes }: PedalFinding) => fixes.map(({ changes }) => changes[0]!.note);
        expect(all(joined, changed)).toEqual(all(findings, changed));
        expect(all(joined, ({ suggestions }) => suggestions).has('Take more time here.')).toBe(
          findings.length > 0,
        );
        for (const { notes, places } of joined) {
          expect(new Set(places.flatMap((place) => place.notes))).toEqual(new Set(notes));
        }
      }),
    );
  });

  it('tells a fix once, in the first of its words, that two findings of one change offer', () => {
    const cSharp = { letter: 'C', alter: 1, octave: 4 } as const;
    const leaveOut = (isGrace: boolean): NoteFix =>
      noteFix({ kind: 'leave-out-first', facts: { pitch: cSharp, isGrace } }, [
        { kind: 'omit', note: 'n1', from: cSharp },
      ]);
    const made = (code: 'foot-too-busy' | 'string-restruck-fast', fix: NoteFix): PedalFinding => {
      const [{ fixes: _fixes, ...found }] = fc.sample(anyFinding, 1) as [PedalFinding];
      const { severity } = FINDINGS[code];
      return { ...found, code, severity, notes: ['n1'], help: [], suggestions: [fix.sentence], fixes: [fix] };
    };
    const joined = joinFindings<PedalFindingCode>([
      made('foot-too-busy', leaveOut(true)),
      made('string-restruck-fast', leaveOut(false)),
    ]);
    expect(joined.map(({ suggestions }) => suggestions)).toEqual([[leaveOut(true).sentence]]);
    expect(joined[0]!.fixes).toHaveLength(1);
  });

  it('tells the beat of a change that was left to its own place, where it is told at the place of a graver finding', () => {
    const cSharp = { letter: 'C', alter: 1, octave: 4 } as const;
    const bars = [{ from: '1', until: '1' }];
    const changes = [
      { from: [cSharp], to: null, bars, beats: [], isGrace: false, twin: null, ornament: null, notes: 1 },
    ];
    const fix = noteFix({ kind: 'change-notes', facts: { changes } }, [
      { kind: 'omit', note: 'n1', from: cSharp },
    ]);
    const priced = {
      ...fix,
      sentence: fix.sentence.replace('.', ' (costs at most 1 more move).'),
      moreMoves: 1,
    };
    const [{ places: _places, ...any }] = fc.sample(anyFinding, 1) as [PedalFinding];
    const at = (code: 'foot-too-busy' | 'pedals-together', beat: number, fixes: readonly NoteFix[]) => {
      const place = { ...any, bar: 0, barName: '1', beat: { num: beat, den: 1 }, notes: ['n1'] };
      return { ...place, code, severity: FINDINGS[code].severity, help: [], fixes, places: [place] };
    };
    const [found] = joinFindings<PedalFindingCode>([
      at('foot-too-busy', 1, []),
      at('pedals-together', 2, [priced]),
    ]);
    expect(found!.suggestions).toEqual(['Leave out the C♯4 in bar 1, beat 2 (costs at most 1 more move).']);
  });

  it('keeps each severity, and drops nothing that stops the player', () => {
    fc.assert(
      fc.property(anyFindings, (findings) => {
        const joined = joinFindings<PedalFindingCode>(findings);
        for (const { code, severity } of joined) expect(severity).toBe(FINDINGS[code].severity);
        const stops = (list: readonly PedalFinding[]) =>
          list
            .filter(({ severity }) => severity === 'stop')
            .flatMap(({ code, places }) => places.map(({ bar }) => `${bar} ${code}`))
            .sort();
        expect(stops(joined)).toEqual(stops(findings));
      }),
    );
  });

  it('never joins across more than one bar without the trouble, and never leaves nearer neighbours apart', () => {
    fc.assert(
      fc.property(anyFindings, (findings) => {
        const joined = joinFindings<PedalFindingCode>(findings);
        for (const { places, bar, beat } of joined) {
          expect(places[0]).toMatchObject({ bar, beat });
          places.slice(1).forEach((place, i) => {
            expect(place.bar - places[i]!.bar).toBeGreaterThanOrEqual(0);
            expect(place.bar - places[i]!.bar).toBeLessThanOrEqual(2);
          });
        }
        for (const code of ['out-of-range', 'too-many-notes-in-hand'] as const) {
          const runs = joined.filter((each) => each.code === code);
          runs.slice(1).forEach((run, i) => {
            expect(run.bar - runs[i]!.places.at(-1)!.bar).toBeGreaterThan(2);
          });
        }
      }),
    );
  });
});

describe('findings for people', () => {
  it('have what stops the player first, then the bars in order', () => {
    const found = findingsOf(overChords(`${FIVE} | C4/4 | C4/4 | C4/4 | A7/4 | ${FIVE}`));
    expect(found.map(({ bar }) => bar)).toEqual([0, 4, 5]);
    expect(orderForPeople(found).map(({ finding, at }) => [finding.code, finding.bar, at])).toEqual([
      ['out-of-range', 4, 1],
      ['too-many-notes-in-hand', 0, 0],
      ['too-many-notes-in-hand', 5, 2],
    ]);
  });
});
