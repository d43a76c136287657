import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeHelp } from '../../../../engine/findings/help/help.ts';
import type { PedalFinding } from '../../../../engine/findings/model.ts';
import { pitchName } from '../../../../engine/music/pitch.ts';
import { type Rational, rational, toNumber, ZERO } from '../../../../engine/music/rational.ts';
import { tellChanges } from '../../../../engine/pedals/fixes/tell-changes.ts';
import { fixLists } from '../../../../engine/pedals/offers/fix-lists.ts';
import { listFixes } from '../../../../engine/pedals/offers/list-fixes.ts';
import type { OfferedFix, PassageFixes } from '../../../../engine/pedals/offers/model.ts';
import { isAtAll } from '../../../../engine/pedals/offers/passage-fixes.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../../engine/pedals/options.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { type SlowPassage, slowDown } from '../../../../engine/score/slow-down.ts';
import { type SmallPart, smallPart } from '../../../part-builder.ts';
import { changesOf, planWithFix } from './carry-out.ts';

const offersOf = (score: Score): readonly OfferedFix[] =>
  listFixes(score).places.flatMap(({ offers }) => offers);

/** Of two notes in each other's way it is one trouble, whichever is blamed. */
const stopsOf = (findings: readonly PedalFinding[]): readonly string[] =>
  findings
    .filter(({ severity }) => severity === 'stop')
    .flatMap(({ code, places }) => places.map(({ notes }) => `${code} ${notes.toSorted().join(' ')}`));

/** Six moves of the right foot in a bar that has no time for them. */
const hurry = (quartersPerMinute: number): Score =>
  smallPart({
    upper: 'E4/1:2 F4/1:2 G4/1:2 A4/1:2 Eb4/1:2 F#4/1:2 G#4/1:2 Ab4/1:2 | E4/4',
    quartersPerMinute,
  });

/** Quavers that have time for all pedals but one. */
const RUNNING = smallPart({
  upper:
    'D4/1:2 E4/1:2 G#4/1:2 Eb4/1:2 B4/1:2 Bb4/1:2 F4/1:2 F4/1:2 | Ab4/1:2 F#4/1:2 E4/1:2 G#4/1:2 Ab4/1:2 A4/1:2 C4/1:2 Eb4/1:2 | E4/4',
  quartersPerMinute: 380,
});

/** Notes of a chord that want pedals in two positions, with octaves among them. */
const chordsOfManyNames = fc.uniqueArray(
  fc
    .tuple(fc.constantFrom('C', 'F', 'D', 'B'), fc.constantFrom('', '#', 'b'), fc.integer({ min: 2, max: 6 }))
    .map(([letter, accidental, octave]) => `${letter}${accidental}${octave}`),
  { minLength: 2, maxLength: 6 },
);

describe('the fixes of what cannot be played', () => {
  it('for C♮ beside C♯ begin with another string: nothing is heard otherwise', () => {
    const [first] = offersOf(smallPart({ upper: 'C4+C#5/4' }));
    expect(first).toMatchObject({
      kind: 'respell',
      sentence: 'Write D♭5 for the C♯5 in bar 1.',
      heard: 'Nothing.',
    });
  });

  it('are the plan’s own too, where another pair of the chord is blamed the other way round after one', () => {
    const score = smallPart({ upper: 'C5+C#5+D5+D#5/4', lower: 'C3/4' });
    const own = planPedals(score).findings.flatMap(({ fixes }) => fixes.map(({ changes }) => changes));
    const offered = offersOf(score).map((offer) => ('changes' in offer ? offer.changes : []));
    expect(own.some((changes) => changes.length === 2)).toBe(true);
    expect(offered).toEqual(expect.arrayContaining(own));
  });

  it('are the plan’s own too where another costs less, and tell what they cost: E5 as F♭5', () => {
    const score = smallPart({
      upper:
        'F#4/1:2 A4/1:2 G4/1:2 D4/1:2 G4/1:2 B4/1:2 Eb4/1:2 D4/1:2 | A4/1:2 F4/1:2 A4/1:2 Eb4+E5/1:2 A4+Eb5/1:2 D4+Ab5/1:2 E4/1:2 G4+Eb5/1:2',
      quartersPerMinute: 105,
    });
    const told = planPedals(score).findings.flatMap(({ suggestions }) => suggestions);
    expect(told).toContain('Write F♭5 for the E5 in bar 2 (costs at most 1 more move).');
    expect(offersOf(score)).toContainEqual(
      expect.objectContaining({ sentence: 'Write F♭5 for the E5 in bar 2.', moreMoves: 1 }),
    );
  });

  it('respell one pitch in all bars in a row where that spares moves, as the plan and its suggestions do', () => {
    const held = smallPart({
      upper: 'D5/4 | ~D5/4 | ~D5/4',
      lower: 'Db3/1 F3/1 A3/1 F3/1 | Db3/1 F3/1 A3/1 F3/1 | Db3/1 F3/1 A3/1 F3/1',
    });
    const [first, alone] = offersOf(held);
    expect(first).toMatchObject({
      sentence: 'Write C♯3 for the D♭3 in bars 1–3 (3 notes).',
      moreMoves: 0,
      soundsSame: true,
    });
    expect(alone).toMatchObject({ sentence: 'Write C♯3 for the D♭3 in bar 1.', moreMoves: 1 });
    expect(planPedals(held).findings[0]!.suggestions[0]).toBe(first!.sentence);
    const { suggestions } = planPedals(held, { ...DEFAULT_PLAN_OPTIONS, spelling: 'suggest' });
    expect(suggestions.map(({ changes }) => changes)).toEqual([changesOf(first!)]);
  });

  it('of a note above the range put it an octave lower', () => {
    const offers = offersOf(smallPart({ upper: 'C8/4' }));
    expect(
      offers.filter(({ kind }) => kind === 'octave').map(({ sentence, heard }) => [sentence, heard]),
    ).toEqual([['Write C7 for the C8 in bar 1.', 'C8 sounds an octave lower.']]);
  });

  it('leave out a note that is doubled before one that nothing else gives', () => {
    const kinds = offersOf(smallPart({ upper: 'D4+A4/4', lower: 'D3+D#2/4' })).map((offer) => [
      offer.kind,
      changesOf(offer).map(({ from }) => `${from.letter}${from.alter}`),
    ]);
    expect(kinds).toContainEqual(['leave-out', ['D1']]);
    expect(kinds.some(([kind]) => kind === 'second-harp')).toBe(true);
  });

  it('do not call a note doubled by one that was plucked before it', () => {
    const kinds = offersOf(smallPart({ upper: 'r/2 D5+D#4/2', lower: 'D3/4' })).map(({ kind }) => kind);
    expect(kinds).toContain('leave-out');
    expect(kinds).not.toContain('leave-out-doubled');
  });

  it('say what is to be tuned before the piece where a note goes to a string without a disc', () => {
    const octaves = offersOf(smallPart({ upper: 'D5/4', lower: 'D#2/4' })).filter(
      ({ kind }) => kind === 'octave',
    );
    expect(octaves.map(({ sentence }) => sentence)).toContain(
      'Write D♯1 for the D♯2 in bar 1. Tune the string D1, which has no disc, to D♯ before the piece.',
    );
    const plain = offersOf(smallPart({ upper: 'D5/4', lower: 'D#3/4' }));
    expect(plain.map(({ sentence }) => sentence).join(' ')).not.toContain('Tune');
  });

  it('are listed once, and a grace note does not stand for the note that it leads to', () => {
    const offers = offersOf(smallPart({ upper: 'D5/2 r/2', lower: '(D#2) D#2/2 r/2' }));
    const sentences = offers.map(({ sentence }) => sentence);
    expect(new Set(sentences).size).toBe(sentences.length);
    expect(offers.filter((offer) => changesOf(offer).some(({ kind }) => kind === 'omit'))).not.toEqual([]);
    expect(offers.map(({ kind }) => kind)).not.toContain('leave-out-doubled');
  });

  it('begin with what makes other places playable too', () => {
    const { places } = listFixes(smallPart({ upper: 'F5+A5/4', lower: 'F#2+F#3+F4/4' }));
    expect(places).toHaveLength(2);
    for (const { offers } of places) {
      const kinds = offers.map(({ kind }) => kind);
      const delay = offers.find(({ kind }) => kind === 'delay')!;
      expect(delay.alsoFixes).toBe(1);
      expect(kinds.indexOf('delay')).toBeLessThan(kinds.indexOf('leave-out'));
    }
  });

  it('are given to no other harp where no harp has the string, and name the nearest octave that covers for a note', () => {
    const offers = offersOf(smallPart({ upper: 'B4+E5/4', lower: 'Bb0+Bb1+Bb3/4' }));
    expect(offers.filter(({ kind, sentence }) => kind === 'second-harp' && sentence.includes('B♭0'))).toEqual(
      [],
    );
    const [covered] = offers.filter(
      ({ kind, sentence }) => kind === 'leave-out-doubled' && sentence.includes('B♭0'),
    );
    expect(covered!.heard).toBe('Little: B♭1 sounds at the same time.');
  });

  it('tell warnings that a bar then has more of, where it has some of the kind already', () => {
    const score = smallPart({
      upper: 'A#4+A5/2 B5/1 Bb5/1 | E4/4',
      lower: 'B3/4 | E3/4',
      quartersPerMinute: 60,
    });
    const later = offersOf(score).find(({ sentence }) => sentence.startsWith('Play the A5'))!;
    expect(later.moreWarnings).toBe(1);
    expect(later.warningsThen).toEqual([{ code: 'ringing-string-moved', bars: [0] }]);
  });

  it('tell a string that is damped then, though another note on it was warned of in that bar already', () => {
    const score = smallPart({
      upper: 'r/1:2 Db4/1:2 D4/1 A5/2 | A5/4',
      lower: 'D2/2 D2+Db3/2 | D3/4',
    });
    expect(planPedals(score).findings[0]!.suggestions).toContain('Damp D2 before the change, or shorten it.');
    const later = offersOf(score).find(({ sentence }) => sentence.startsWith('Play the D♭3'))!;
    expect(later.heard).toBe(
      'D♭3 sounds later than the rest. D2 has to be damped early, or is heard to bend (bar 1).',
    );
    expect(later.warningsThen).toEqual([{ code: 'ringing-string-moved', bars: [0] }]);
  });

  it('come with what free spelling of the whole part does, planned, where that makes places playable', () => {
    const score = smallPart({ upper: 'C4+C#5/4 | D4+D#5/4 | E4/4', lower: 'Bb0/4 | C3/4 | C3/4' });
    const free = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, spelling: 'free' });
    const { freeSpelling, places } = listFixes(score);
    expect(places).toHaveLength(3);
    expect(freeSpelling).toEqual({
      stops: 1,
      respelled: free.respellings.length,
      moreMoves: free.moves.length - planPedals(score).moves.length,
    });
    const options = { ...DEFAULT_PLAN_OPTIONS, spelling: 'free' as const };
    expect(listFixes(score, options).freeSpelling).toBeNull();
    expect(listFixes(smallPart({ upper: 'C4/4', lower: 'Bb0/4' })).freeSpelling).toBeNull();
  });

  it('name an octave that is left out as one would say it', () => {
    const upper = 'E4/1:2 F4/1:2 G4+G5/1:4 G#4+G#5/1:4 G4+G5/1:4 A4/1:4 | E4/4';
    const heard = offersOf(smallPart({ upper, quartersPerMinute: 120 })).map((offer) => offer.heard);
    expect(heard).toContain('G♯4 and G♯5 are missing.');
  });

  it('do not call a note little missed for another that cannot be played either, or is left out too', () => {
    const { places } = listFixes(smallPart({ upper: 'F5+A5/4', lower: 'F#2+F#3+F4/4' }));
    const left = places.flatMap(({ offers }) =>
      offers.filter(({ kind }) => kind.startsWith('leave-out')).map(({ heard }) => heard),
    );
    expect(left).toEqual(expect.arrayContaining(['F♯2 is missing.', 'F♯3 is missing.']));
    expect(left.join(' ')).not.toContain('Little');
    const a6 = smallPart({ upper: 'A6+A7/4' });
    const [low] = a6.notes;
    const options = { ...DEFAULT_PLAN_OPTIONS, omitted: new Set([low!.id]) };
    const kinds = listFixes(a6, options).places.flatMap(({ offers }) => offers.map(({ kind }) => kind));
    expect(kinds).toContain('leave-out');
    expect(kinds).not.toContain('leave-out-doubled');
  });

  it('begin with what sounds the same, and where one of each place is taken no name of a sound is lost untold', () => {
    fc.assert(
      fc.property(chordsOfManyNames, (chord) => {
        const { places } = listFixes(smallPart({ upper: `${chord.join('+')}/2 C5/2` }));
        const left: (readonly [string, readonly string[]])[] = [];
        for (const { offers } of places) {
          const otherwise = offers
            .map(({ kind }, i) => (['respell', 'second-harp'].includes(kind) ? -1 : i))
            .filter((i) => i >= 0);
          const same = offers.map(({ kind, moreMoves }, i) =>
            kind === 'respell' && moreMoves <= 0 ? i : -1,
          );
          expect(Math.max(-1, ...same)).toBeLessThan(Math.min(offers.length, ...otherwise));
          const doubled = offers.find(({ kind }) => kind === 'leave-out-doubled');
          if (doubled !== undefined)
            left.push([doubled.heard, changesOf(doubled).map(({ from }) => pitchName(from))]);
        }
        const out = left.flatMap(([, names]) => names);
        for (const [heard] of left) for (const name of out) expect(heard).not.toContain(` ${name} `);
      }),
      { numRuns: 12 },
    );
  });

  it('respell notes nearby where those of the place itself are of no help, before a tempo that is hardly slower', () => {
    const offers = offersOf(RUNNING);
    const tempo = offers.findIndex(({ kind }) => kind === 'tempo');
    // At another beat than the place: it is told.
    expect(offers[0]!.sentence).toBe('Write D♯4 for the E♭4 in bar 1, beat 2½.');
    expect(offers[0]!.cost).toBeGreaterThan(offers[tempo]!.cost);
    const all = offersOf(
      smallPart({
        upper:
          'B4/1:2 B4/1:2 A4/1:2 C4/1:2 G#4/1:2 G4/1:2 G#4/1:2 C#4/1:2 | G#4/1:2 G4/1:2 F#4/1:2 C#4/1:2 D#4/1:2 G#4/1:2 A4/1:2 B4/1:2 | E4/4',
        quartersPerMinute: 320,
      }),
    );
    expect(all[0]!.sentence).toBe('Write A♭4 for the G♯4 in bars 1–2 (4 notes).');
  });

  it('put a note that waits half a beat before two respelled ones that cost moves', () => {
    const offers = offersOf(
      smallPart({
        upper: 'D#5/1 E5/1 C5/1 E5/1 | D5+G5/2 D5/1 E5/1 | C5+D5/1 E5/1 C5/1 E5/1',
        lower: 'D#3/4 | D#2+D#3/1:2 C3/1:2 G3/1 r/2 | E3/4',
      }),
    );
    expect(offers.map(({ kind, moreMoves }) => [kind, moreMoves])).toEqual([
      ['delay', 0],
      ['respell', 2],
      ['second-harp', 0],
      ['leave-out', 0],
      ['second-harp', 0],
    ]);
  });

  it('leave out an inner note before the melody, and give another harp no note that costs more moves than its neighbour', () => {
    const offers = offersOf(
      smallPart({ upper: 'B4/1 r/1 C5+C#5/1 r/1 | C#5/4', lower: 'A3/4 | C#4/4', quartersPerMinute: 100 }),
    );
    const told = (kind: OfferedFix['kind']) =>
      offers.filter((offer) => offer.kind === kind).map((offer) => pitchName(changesOf(offer)[0]!.from));
    expect(told('leave-out')).toEqual(['C5', 'C♯5']);
    expect(told('second-harp')).toEqual(['C5']);
  });

  it('put a bass an octave higher before it is left out, though other octaves double it', () => {
    const kinds = offersOf(smallPart({ upper: 'B4/4', lower: 'B0/4' })).map(({ kind }) => kind);
    expect(kinds.indexOf('octave')).toBeLessThan(kinds.indexOf('leave-out-doubled'));
    const doubled = offersOf(smallPart({ upper: 'A6+A7/4' }));
    expect(doubled[0]).toMatchObject({
      kind: 'leave-out-doubled',
      heard: 'Little: A6 sounds at the same time.',
    });
    // The octave below is plucked already: to move the note there is to leave it out.
    expect(doubled.map(({ kind }) => kind)).not.toContain('octave');
    const grace = offersOf(smallPart({ upper: 'D4/4', lower: '(Bb0+Bb1) F2/4' }));
    expect(grace.map(({ kind, heard }) => [kind, heard])).toEqual([
      ['leave-out-doubled', 'Little: B♭1 sounds at the same time.'],
    ]);
  });

  it('let all notes of a chord that need the pedal wait for the next beat, so that the foot moves between', () => {
    const score = smallPart({ upper: 'F4+A4+F#5+F#6/2 r/2' });
    const waits = offersOf(score).filter(({ kind }) => kind === 'delay');
    expect(waits.map(({ sentence }) => sentence)).toEqual([
      'Play the F4 in bar 1 later, on beat 2.',
      'Play the F♯5 and F♯6 in bar 1 later, on beat 2.',
    ]);
    const { moves, findings } = planWithFix(score, waits[1]!);
    expect(moves.map(({ letter, to, beat }) => [letter, to, toNumber(beat)])).toEqual([['F', 1, 1.5]]);
    // The F4 is still ringing then.
    expect(findings.map(({ code }) => code)).toEqual(['ringing-string-moved']);
    expect(waits[1]).toMatchObject({ moreMoves: 1, moreWarnings: 1 });
    expect(waits[1]!.heard).toBe(
      'F♯5 and F♯6 sound later than the rest. F4 has to be damped early, or is heard to bend (bar 1).',
    );
  });

  it('tell which of two notes of one name at one beat is meant: by its staff, or one of the two', () => {
    const leftOut = (part: SmallPart, ...at: readonly number[]) => {
      const score = smallPart(part);
      const changes = at.map(
        (i) => ({ kind: 'omit', note: score.notes[i]!.id, from: score.notes[i]!.pitch }) as const,
      );
      return describeHelp(tellChanges(changes, score, { bar: 0, beat: rational(1) }));
    };
    const doubled = { upper: 'Bb4/4', lower: 'Bb4/4' };
    expect(leftOut(doubled, 1)).toBe('Leave out the lower staff’s B♭4 in bar 1, beat 1.');
    expect(leftOut(doubled, 0)).toBe('Leave out the upper staff’s B♭4 in bar 1, beat 1.');
    expect(leftOut({ upper: 'Bb4+Bb4/4' }, 0)).toBe('Leave out one of the two notes B♭4 in bar 1, beat 1.');
    expect(leftOut(doubled, 0, 1)).toBe('Leave out the B♭4 in bar 1 (2 notes).');
  });

  it('name the beat of a note where others of the bar have its name, and only there', () => {
    const sentences = (upper: string) => offersOf(smallPart({ upper })).map(({ sentence }) => sentence);
    const twice = sentences('C#4/1 r/1 C4+C#4/1 E4/1');
    expect(twice).toContain('Leave out the C4 in bar 1.');
    expect(twice).toContain('Leave out the C♯4 in bar 1, beat 3.');
    expect(sentences('E4/1 r/1 C4+C#4/1 E4/1')).toContain('Leave out the C♯4 in bar 1.');
    const waits = sentences('F#5/1 r/1 F4+A4+F#5/2').filter((each) => each.includes('later'));
    expect(waits).toContain('Play the F♯5 in bar 1, beat 3, later, on beat 4.');
  });

  it('follow each other by bar and beat, not by what is the matter', () => {
    const { places } = listFixes(smallPart({ upper: 'C4+C#5/4 | D4+D#4/4 | F4+F#5/4' }));
    expect(places.map(({ code, bar }) => [code, bar])).toEqual([
      ['pedal-in-two-positions', 0],
      ['string-in-two-pitches', 1],
      ['pedal-in-two-positions', 2],
    ]);
  });

  it('of the same trouble in a row are taken at all places at once, each planned with as a whole', () => {
    const score = smallPart({
      upper: 'G4+G#4/1 G4+G#4/1 G4+G#4/1 r/1 | G4+G#4/2 D1/2 | C4+C#5/4',
      lower: 'G2/4 | r/4 | r/4',
    });
    const { places, passages } = listFixes(score);
    const [{ places: at, offers, sentence }] = passages as [PassageFixes];
    expect(at).toEqual([0, 1, 2, 3]);
    expect(sentence).toBe('One string would have to give two pitches at the same time, in 4 places.');
    expect(offers.map((offer) => offer.sentence)).toEqual(
      expect.arrayContaining([
        'Write A♭4 for the G♯4 in bars 1–2 (4 notes).',
        'Give another harp the G♯4 in bars 1–2 (4 notes).',
      ]),
    );
    expect(offers[0]).toMatchObject({ kind: 'respell', heard: 'Nothing.', alsoFixes: 0 });
    for (const offer of offers) {
      const after = planWithFix(score, offer);
      expect(stopsOf(after.findings)).toHaveLength(places.length - offer.places.length - offer.alsoFixes);
      expect(at).toEqual(expect.arrayContaining([...offer.places]));
      expect(after.moves.length - planPedals(score).moves.length).toBe(offer.moreMoves);
    }
    const told = planPedals(score).findings.flatMap(({ suggestions }) => suggestions);
    expect(told[0]).toMatch(/^Write A♭4 for the G♯4 in bars 1–2 \(4 notes\)/);
    // What is told for all of them is not told for each once more.
    const lists = fixLists({
      places: places.map((place, i) => ({
        fixes: place.offers.map((offer) => ({ atAll: isAtAll(offer, i, passages) })),
      })),
      passages: passages.map((each) => ({
        places: each.places,
        fixes: each.offers.map(({ places: of }) => ({ atAll: passages.length > 0, places: of })),
      })),
    });
    expect(lists.map(({ passage, places: of }) => [passage !== null, of.length])[0]).toEqual([true, 4]);
    for (const { fixes } of lists) expect(fixes.length).toBeGreaterThan(0);
  });

  it('are told in one list where they have places of a passage in common, each with those that it is for', () => {
    const turns = 'Eb5/1:4 E5/1:4 Eb5/1:4 E5/1:4 Eb5/1:4 E5/1:4';
    const score = smallPart({ upper: `E5/1:4 ${turns} r/1:4 r/2`, quartersPerMinute: 108 });
    const { passages, places: all } = listFixes(score);
    expect(passages).toHaveLength(1);
    const [{ places, offers }] = passages as [PassageFixes];
    expect(offers[0]!.places).toEqual(places);
    // The plan tells the same as one thing to do, and nothing place by place.
    const [stop] = planPedals(score).findings.filter(({ severity }) => severity === 'stop');
    expect(stop!.fixes).toHaveLength(1);
    expect(stop!.suggestions[0]).toContain(offers[0]!.sentence.replace(/\.$/, ''));
    for (const offer of offers) {
      if (!('changes' in offer)) continue;
      const left = stopsOf(planWithFix(score, offer).findings);
      expect(all.length - left.length).toBe(offer.places.length + offer.alsoFixes);
      // What it mends beside the places that are changed alike is told with them, and not as others.
      expect(offer.alsoFixes).toBe(0);
    }
    const tempos = offers.filter(({ kind }) => kind === 'tempo');
    expect(tempos.map((offer) => offer.places)).toEqual([places]);
    // Slowed with a bar before it or alone, the bar of a place works up to the same tempo: the bar before stays as it is.
    const before = smallPart({
      upper: `A4/1:2 G4/1:2 F4/1 E#4/1 E4/1 | E5/1:4 ${turns} r/1:4 r/2`,
      quartersPerMinute: 108,
    });
    const slowed = offersOf(before).flatMap((offer) => (offer.kind === 'tempo' ? [offer.tempo.bars] : []));
    expect(new Set(slowed.map(({ first, last }) => `${first} ${last}`))).toEqual(new Set(['1 1']));
  });

  it('let a note wait until the foot has rested', () => {
    const [wait] = offersOf(smallPart({ upper: 'E4+F4/1 Eb4+F#4/3', quartersPerMinute: 200 })).filter(
      ({ kind }) => kind === 'delay',
    );
    expect(wait?.sentence).toMatch(/^Play the F♯4 in bar 1 later, on beat \d/);
  });

  it('let no note wait that has ended by then, is trilled, tied or a grace note', () => {
    for (const upper of ['F4+F#5/1:2 A4/1:2 C5/3', '(F#5) F4+F#5/1 r/3']) {
      expect(offersOf(smallPart({ upper })).map(({ kind }) => kind)).not.toContain('delay');
    }
  });

  it('are offered only where a plan with them has lost the trouble and no new one', () => {
    for (const score of [hurry(200), smallPart({ upper: 'C4+C#5/4 | G4+Gb3+G#5/4', lower: 'C8/4 | r/4' })]) {
      const before = stopsOf(planPedals(score).findings);
      const told: (readonly [number, number])[] = [];
      const { places } = listFixes(score, undefined, undefined, (...done) => told.push(done));
      expect(places.length).toBeGreaterThan(0);
      expect(told).toEqual([...places.keys(), places.length].map((done) => [done, places.length]));
      for (const { code, notes, offers } of places) {
        for (const offer of offers) {
          const after = stopsOf(planWithFix(score, offer).findings);
          expect(after).not.toContain(`${code} ${notes.join(' ')}`);
          expect(after.filter((each) => !before.includes(each))).toEqual([]);
        }
      }
    }
  });
});

describe('the tempo from which a part works', () => {
  const atTempo = (tempo: number): number => stopsOf(planPedals(hurry(tempo)).findings).length;

  it('is the fastest whole number at which every place is playable, by trying each', () => {
    const { tempo } = listFixes(hurry(200));
    const playable = Array.from({ length: 150 }, (_, i) => 50 + i).filter((value) => atTempo(value) === 0);
    expect(tempo.playableUpTo).toBe(Math.max(...playable));
    expect(tempo.proved).toBe(true);
    expect(playable).toHaveLength(tempo.playableUpTo! - 49);
  });

  it('has a step wherever the number of places that are not playable changes', () => {
    const { tempo } = listFixes(hurry(200));
    for (const { quartersPerMinute, stops } of tempo.steps) expect(atTempo(quartersPerMinute)).toBe(stops);
    const counts = Array.from({ length: 151 }, (_, i) => atTempo(50 + i));
    const changes = counts.filter((stops, i) => i > 0 && counts[i - 1] !== stops).length;
    const told = tempo.steps.filter(({ stops }, i) => i > 0 && tempo.steps[i - 1]!.stops !== stops).length;
    expect(told).toBe(changes);
    for (const [i, step] of tempo.steps.slice(0, -1).entries()) {
      const next = tempo.steps[i + 1]!;
      if (next.stops !== step.stops) expect(next.quartersPerMinute - step.quartersPerMinute).toBe(1);
    }
  });

  it('is told of each place that time mends, though others are not played at any tempo, and which of their notes is late goes by it', () => {
    const score = smallPart({
      meter: { beats: 3, beatUnit: 4 },
      quartersPerMinute: 160,
      upper:
        '(C4+D4) C#4+D#4/1 r/2 | r/1:2 C#5/1:2 C5+Db5/1:2 B4/1:2 F#5/1:2 D#5+C#5/1:2 | r/1:2 Bb4/1:2 Bb4+D5/1:2 B4/1:2 Bb4/1:2 G#5+Eb5/1:2 | (B3+C4) Bb3+Db4/1 r/2',
    });
    const { places, tempo } = listFixes(score);
    expect(tempo.playableUpTo).toBeNull();
    const placeOf = ({ bar, beat }: { readonly bar: number; readonly beat: Rational }) =>
      `${bar + 1}: ${toNumber(beat)}`;
    const slower = places.flatMap((place) =>
      place.offers.flatMap((offer) => (offer.kind === 'tempo' ? [{ place, tempo: offer.tempo }] : [])),
    );
    expect(new Set(slower.map(({ place }) => placeOf(place)))).toEqual(new Set(tempo.mended.map(placeOf)));
    const unplayableAt = (passages: readonly SlowPassage[]): readonly string[] =>
      planPedals(slowDown(score, passages))
        .findings.filter(({ severity }) => severity === 'stop')
        .flatMap((finding) => finding.places.map(placeOf));
    for (const { place, tempo: limit } of slower) {
      const at = (value: number) => unplayableAt([{ ...limit.passage, quartersPerMinute: value }]);
      expect(at(limit.quartersPerMinute)).not.toContain(placeOf(place));
      expect(at(limit.quartersPerMinute + 1)).toContain(placeOf(place));
    }
    for (const place of tempo.mended) {
      const { quartersPerMinute } = place;
      const all = { from: ZERO, until: null };
      expect(unplayableAt([{ ...all, quartersPerMinute }])).not.toContain(placeOf(place));
      expect(unplayableAt([{ ...all, quartersPerMinute: quartersPerMinute + 1 }])).toContain(placeOf(place));
    }
  });

  it('is told of a place too, with the bars that are slowed: those of its moves', () => {
    const [slower] = offersOf(hurry(200)).filter(({ kind }) => kind === 'tempo');
    expect(slower).toMatchObject({ tempo: { written: 200, bars: { first: 0, last: 0 }, proved: true } });
    expect(slower!.sentence).toMatch(/^Play bar 1 no faster than ♩ = \d+\.$/);
  });

  it('is told with the warnings that are left in its bars, and they are those of the plan at that tempo', () => {
    const slower = offersOf(RUNNING).flatMap((offer) => (offer.kind === 'tempo' ? [offer.tempo] : []));
    const codes = new Set(slower.flatMap(({ left }) => left.map(({ code }) => code)));
    expect([...codes]).toEqual(expect.arrayContaining(['feet-hurried-passage', 'ringing-string-moved']));
    for (const { bars, passage, quartersPerMinute, left } of slower) {
      const { findings } = planPedals(slowDown(RUNNING, [{ ...passage, quartersPerMinute }]));
      const warned = findings
        .filter(({ severity }) => severity === 'warn')
        .flatMap(({ code, places }) => places.map(({ bar }) => ({ code, bar })))
        .filter(({ bar }) => bar >= bars.first && bar <= bars.last)
        .map(({ code, bar }) => `${code} ${bar}`);
      expect(left.flatMap(({ code, bars: of }) => of.map((bar) => `${code} ${bar}`)).sort()).toEqual(
        [...new Set(warned)].sort(),
      );
    }
    const { tempo } = listFixes(hurry(200));
    const atLimit = planPedals(hurry(tempo.playableUpTo!)).findings.filter(
      ({ severity }) => severity === 'warn',
    );
    expect(new Set(tempo.left.map(({ code }) => code))).toEqual(new Set(atLimit.map(({ code }) => code)));
  });

  it('is told of a place in 6/8 as a whole number of dotted quarters, by trying the next', () => {
    const common = hurry(200);
    const meter = { beats: 6, beatUnit: 8 };
    const score = { ...common, bars: common.bars.map((bar) => ({ ...bar, meter })) };
    const [slower] = offersOf(score).filter((offer) => offer.kind === 'tempo');
    const { quartersPerMinute, passage } = slower!.tempo;
    const dotted = quartersPerMinute / 1.5;
    expect(Number.isInteger(dotted)).toBe(true);
    expect(slower!.sentence).toBe(`Play bar 1 no faster than ♩. = ${dotted}.`);
    const stopsAt = (value: number): number =>
      stopsOf(planPedals(slowDown(score, [{ ...passage, quartersPerMinute: 1.5 * value }])).findings).length;
    expect(stopsAt(dotted)).toBe(0);
    expect(stopsAt(dotted + 1)).toBeGreaterThan(0);
  });

  it('is a whole number of what is counted for the whole part too: of dotted quarters in 6/8, of minims in 2/2', () => {
    const common = hurry(200);
    const inMeter = (beats: number, beatUnit: number) => {
      const score = { ...common, bars: common.bars.map((bar) => ({ ...bar, meter: { beats, beatUnit } })) };
      const { unit, playableUpTo } = listFixes(score).tempo;
      const counted = playableUpTo! / unit.quarters;
      expect(Number.isInteger(counted)).toBe(true);
      expect(atTempo(counted * unit.quarters)).toBe(0);
      expect(atTempo((counted + 1) * unit.quarters)).toBeGreaterThan(0);
      return unit.sign;
    };
    expect(inMeter(6, 8)).toBe('♩.');
    expect(inMeter(2, 2)).toBe('\u{1d15e}');
  });

  it('is none where notes that begin together need one pedal in two positions', () => {
    expect(listFixes(smallPart({ upper: 'C4+C#5/4' })).tempo.playableUpTo).toBeNull();
  });

  it('is the written one where all is playable', () => {
    expect(listFixes(smallPart({ upper: 'C4/4' })).tempo).toMatchObject({ written: 60, playableUpTo: 60 });
  });

  it('is told as assumed where the score states none', () => {
    const part = smallPart({ upper: 'C4/4' });
    const unstated = { ...part, tempo: part.tempo.map((mark) => ({ ...mark, origin: 'assumed' as const })) };
    expect([part, unstated].map((score) => listFixes(score).tempo.isAssumed)).toEqual([false, true]);
  });
});
