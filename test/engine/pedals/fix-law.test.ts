import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { listFixes } from '../../../engine/pedals/offers/list-fixes.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import { asDecided, expectLaw } from './fix-law.ts';
import { ornatePart } from './ornate-parts.ts';

const pitch = (...octaves: number[]) =>
  fc
    .tuple(
      fc.constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
      fc.constantFrom('', '', '#', 'b', '#', 'b', '##', 'bb'),
      fc.constantFrom(...octaves),
    )
    .map(([letter, accidental, octave]) => `${letter}${accidental}${octave}`);

const onset = (...octaves: number[]) =>
  fc.oneof(
    pitch(...octaves),
    fc.tuple(pitch(...octaves), pitch(...octaves)).map(([a, b]) => `${a}+${b}`),
    fc.constant('r'),
  );

const line = (bars: number, ...octaves: number[]) =>
  fc
    .array(fc.array(onset(...octaves), { minLength: 5, maxLength: 5 }), { minLength: bars, maxLength: bars })
    .map((all) => all.map((bar) => bar.map((each) => `${each}/1:2`).join(' ')).join(' | '));

const somePart = (quartersPerMinute: number, playOrder: readonly number[], bars = 2) =>
  fc
    .record({
      upper: line(bars, 4, 5),
      lower: line(bars, 3, 4),
      keyFifths: fc.constantFrom(-3, 0, 2),
      quartersPerMinute: fc.constant(quartersPerMinute),
      playOrder: fc.constant(playOrder),
    })
    .map(smallPart);

describe('fixes that are offered under free spelling', () => {
  const free = { ...DEFAULT_PLAN_OPTIONS, spelling: 'free' as const };

  it('agree with each other, and with what is spelled anew once they are taken', () => {
    fc.assert(
      fc.property(somePart(40, [0, 1]), (score) => expectLaw(score, free)),
      { numRuns: 4 },
    );
    fc.assert(
      fc.property(somePart(150, [0, 1]), (score) => expectLaw(score, free)),
      { numRuns: 4 },
    );
  });

  it('take a note off a string for both hands only where the other stays: F4 is no way out for F4', () => {
    const part = smallPart({
      upper: 'E#4/1:2 r/1:2 A5+B5/1:2 r/3:2 | F#5/1:2 F4/1:2 A#5+F5/1:2 r/5:2',
      lower: 'r/1:2 A#4+Bb4/1:2 E#3+B4/1:2 r/5:2 | E##3/1:2 C##4+F4/1:2 r/1:2 Db4+Bb4/1:2 r/2',
    });
    expectLaw(part, free);
    const [both] = planPedals(part, free).findings.filter(({ code }) => code === 'string-for-both-hands');
    expect(both!.fixes.map(({ changes }) => changes[0]!.kind)).toEqual(['omit']);
  });
});

describe('a fix alone', () => {
  it('does not make the trouble of another pedal: E♭ is none for D♯ beside E♯', () => {
    const part = smallPart({ upper: 'E#4+D5/2 r/2', lower: '(D#2) D#2/2 r/2' });
    expectLaw(part);
    const changes = planPedals(part).findings.flatMap(({ fixes }) => fixes.map((fix) => fix.changes));
    for (const each of changes) {
      const toFlat = each.some((change) => change.kind === 'respell' && change.to.alter === -1);
      if (toFlat) expect(each.length).toBeGreaterThan(1);
    }
  });
});

describe('the fixes of a chord with octaves', () => {
  const part = smallPart({ upper: 'F4+A4/2 r/2', lower: 'F#2+F#3/2 r/2' });

  it('leave none of them where it was: G♭2 alone is none for F♯2 beside F♯3', () => {
    expectLaw(part);
    const fixes = planPedals(part).findings.flatMap((finding) => finding.fixes);
    expect(fixes.map(({ sentence }) => sentence)).toEqual(
      expect.arrayContaining(['Write E♯4 for the F4 in bar 1.']),
    );
    expect(fixes.filter(({ changes }) => changes.length === 1).map(({ sentence }) => sentence)).not.toContain(
      'Write G♭2 for the F♯2 in bar 1.',
    );
  });

  it('respell all of them in one sentence, and give them away so', () => {
    const sentences = listFixes(part).places.flatMap(({ offers }) => offers.map(({ sentence }) => sentence));
    expect(sentences).toContain('Write G♭2 and G♭3 for the F♯2 and F♯3 in bar 1.');
    expect(sentences).toContain('Give another harp the F♯2 and F♯3 in bar 1.');
    const doubled = smallPart({ upper: 'C5+C6/4', lower: 'C#3+C#4/4' });
    expectLaw(doubled);
    expect(planPedals(doubled).findings[0]!.suggestions[0]).toBe(
      'Write D♭3 and D♭4 for the C♯3 and C♯4 in bar 1.',
    );
  });
});

describe('a grace note and the note that it leads to', () => {
  const part = smallPart({ upper: 'E#4+D5/2 r/2', lower: '(D#2) D#2/2 r/2' });

  it('are told apart: “Leave out the grace note D♯2.” is not “Leave out the main note D♯2 in bar 1.”', () => {
    const [grace, main] = part.notes.filter(({ pitch }) => pitch.octave === 2);
    const { findings } = planPedals(part);
    const offered = [
      ...findings.flatMap(({ fixes }) => fixes),
      ...listFixes(part).places.flatMap(({ offers }) =>
        offers.flatMap((offer) => ('changes' in offer && offer.kind !== 'second-harp' ? [offer] : [])),
      ),
    ];
    const sentencesFor = (note: string) => [
      ...new Set(
        offered
          .filter(({ changes }) => changes.length === 1 && changes[0]!.kind === 'omit')
          .filter(({ changes }) => changes[0]!.note === note)
          .map(({ sentence }) => sentence),
      ),
    ];
    expect(sentencesFor(grace!.id)).toEqual(['Leave out the grace note D♯2.']);
    expect(sentencesFor(main!.id)).toEqual(['Leave out the main note D♯2 in bar 1.']);
    const heard = offered.flatMap((each) => ('heard' in each ? [each.heard] : []));
    expect(heard.join(' ')).toContain('The main note D♯2 is missing.');
  });

  it('are left out alone, as they are sent back by their place', () => {
    for (const note of part.notes) {
      const { omitted } = asDecided(part, [{ kind: 'omit', note: note.id, from: note.pitch }]);
      expect([...omitted]).toEqual([note.id]);
    }
  });
});

describe('fixes that are offered', () => {
  it('agree with each other in slow chromatic music', () => {
    fc.assert(
      fc.property(somePart(40, [0, 1]), (score) => expectLaw(score)),
      { numRuns: 4 },
    );
  });

  it('agree with each other where the feet have hardly time', () => {
    fc.assert(
      fc.property(somePart(150, [0, 1]), (score) => expectLaw(score)),
      { numRuns: 4 },
    );
  });

  it('agree with each other over a repeat', () => {
    fc.assert(
      fc.property(somePart(90, [0, 1, 0, 1]), (score) => expectLaw(score)),
      { numRuns: 4 },
    );
  });
});

describe('fixes that are offered among trills, grace notes, glissandi, tied chords and held basses', () => {
  it('agree with each other where the feet have time', () => {
    fc.assert(
      fc.property(ornatePart(60, [0, 1]), (score) => expectLaw(score)),
      { numRuns: 12 },
    );
  });

  it('agree with each other where they have hardly any', () => {
    fc.assert(
      fc.property(ornatePart(150, [0, 1]), (score) => expectLaw(score)),
      { numRuns: 12 },
    );
  });

  it('agree with each other over a repeat', () => {
    fc.assert(
      fc.property(ornatePart(100, [0, 1, 0, 1]), (score) => expectLaw(score)),
      { numRuns: 6 },
    );
  });

  it('agree where a note that is left out told a glissando its letter: A♮ in E♭ major', () => {
    expectLaw(
      smallPart({
        upper: 'G##3/1:2> Fb5/1:2 C5/1 r/2',
        lower: 'A3/4',
        keyFifths: -3,
        quartersPerMinute: 150,
      }),
    );
  });

  it('agree where the note left out stands beside other strings of its pedal: C♭ and C♮ before a glissando', () => {
    expectLaw(
      smallPart({
        upper:
          'G#4+D5/1 F#5+C#5+E#4/1:2 B##4+Cb4+C5/1:2 G#3/1:2> Eb5/1:2 F3/1:2> Bbb5/1:2 | (C#5) (E5) C##5/1 B#5+E#4/1 A3/1:2> C5/1:2 Gb4/1:2 C#5/1:2',
        lower: 'Ab3/1 r/3 | G##3+A2/1 r/3',
        keyFifths: -3,
        quartersPerMinute: 150,
      }),
    );
  });
});

describe('fixes of one fast change that two findings tell', () => {
  it('are taken one at a time: A♯4 for B♭4 is not needed beside A♯5 for the B♭5 before it', () => {
    expectLaw(
      smallPart({
        upper:
          'Bb5/1tr(C#6) (Db5) E4+G5/1 Bb5+C5+F#4/1:2 B4/1:2 Bb4/1 | Gb5/1tr(Abb5) r/1 F4/1:2 F5+G##4/1:2 B4/1',
        lower: 'B3+G#2/1 r/3 | C3+G#2+B2/4',
        keyFifths: -3,
        quartersPerMinute: 150,
      }),
    );
  });
});

/** What the findings of a small part offer. */
const offered = (part: SmallPart): readonly string[] =>
  planPedals(smallPart(part)).findings.flatMap(({ fixes }) => fixes.map(({ sentence }) => sentence));

// What a harpist writes first: common practice, no source.
describe('of several fixes', () => {
  it('the natural comes first: C♭ beside C♮ is written as B♮', () => {
    expect(offered({ upper: 'C4+Cb5/4' })).toEqual([
      'Write B4 for the C♭5 in bar 1.',
      'Write B♯3 for the C4 in bar 1.',
    ]);
  });

  it('the usual accidental comes before the unusual one: C♯ beside C♮ is written as D♭', () => {
    expect(offered({ upper: 'C4+C#5/4' })).toEqual([
      'Write D♭5 for the C♯5 in bar 1.',
      'Write B♯3 for the C4 in bar 1.',
    ]);
  });

  it('that of one string for both hands is to leave it to one of them', () => {
    expect(offered({ upper: 'C4/1', lower: 'C4/1' })[0]).toBe('Play the C4 with the right hand only.');
  });
});

describe('a fix that costs moves', () => {
  it('says how many', () => {
    const all = offered({
      upper: 'B4/1 r/1 C4+Cb5/1 r/1 | Bb4/1 r/1 r/2',
      lower: 'Bb2/1 r/1 r/2 | Bb2/4',
    });
    expect(all[1]).toMatch(/\(costs at most 2 more moves\)/);
  });
});
