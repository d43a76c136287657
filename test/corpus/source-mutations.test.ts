import { describe, expect, it } from 'vitest';
import type { Position } from '../../engine/harp/setting.ts';
import { LETTERS } from '../../engine/music/pitch.ts';
import { proofreadScore } from '../../engine/proof/proof.ts';
import type { SourceMarking } from '../../engine/score/model/markings.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { playMarkings } from '../checker/play-markings.ts';
import type { PrintedMarking } from '../checker/printed-markings.ts';
import { isThorough, oneIn } from '../thorough.ts';
import { hasScores } from './harp-scores.ts';
import { type RoundTrip, roundTrip, withOwnMarkingsAlone } from './source-scores.ts';

const FILES = [
  'mx/Bombe.xml',
  'mx/FreezingSmall.xml',
  'openscore-lieder/lc6583907.mxl',
  'openscore-lieder/lc6583966.mxl',
  'openscore-lieder/lc6486038.mxl',
  'openscore-lieder/lc29989154.mxl',
  'openscore-lieder/lc5051724.mxl',
  'openscore-lieder/lc6199572.mxl',
] as const;

/** Markings spoilt in each score, spread over the piece; all of them where `TRINGLE_THOROUGH=1` is set. */
const SPOILT = isThorough ? Number.POSITIVE_INFINITY : 3;

/** Each marking left out, and each with one of its pedals put elsewhere. */
const mutationsOf = ({ markings }: Score): readonly (readonly SourceMarking[])[] => {
  const step = Math.max(1, Math.ceil(markings.length / SPOILT));
  return markings.flatMap((marking, i) => {
    if (i % step !== 0) return [];
    const stated = LETTERS.filter((letter) => marking.positions[letter] !== undefined);
    const letter = stated[i % stated.length]!;
    const elsewhere = ((marking.positions[letter]! + 2 + (i % 2)) % 3) - 1;
    const altered = { ...marking, positions: { ...marking.positions, [letter]: elsewhere as Position } };
    return [markings.toSpliced(i, 1), markings.with(i, altered)];
  });
};

/** What the independent checker hears: every note that its string does not give, by pass. */
const hear = (score: Score): string => {
  const printed = score.markings.map(({ bar, at, form, positions }): PrintedMarking => {
    const { onset, meter } = score.bars[bar]!;
    const quarters = at.num / at.den - onset.num / onset.den;
    return {
      kind: form,
      barIndex: bar,
      beat: 1 + (quarters * meter.beatUnit) / 4,
      positions: new Map(Object.entries(positions)),
    };
  });
  return JSON.stringify(playMarkings(score, printed).missingNotes);
};

const read = (score: Score, { plan }: RoundTrip): string =>
  JSON.stringify(
    proofreadScore(score, undefined, () => plan).findings.map(({ code, bar, notes }) => [code, bar, notes]),
  );

describe.skipIf(!hasScores)('a spoilt marking (skipped where ../shared/scores is absent)', () => {
  it.each(oneIn(3, FILES))(
    'that changes what sounds in %s is caught by the proof, always',
    { timeout: 120_000 },
    (file) => {
      const trip = roundTrip(file);
      const whole = withOwnMarkingsAlone(trip.read);
      const sounded = hear(whole);
      const provenOptimal = read(whole, trip);
      let changing = 0;
      for (const markings of mutationsOf(whole)) {
        const spoilt = { ...whole, markings };
        if (hear(spoilt) === sounded) continue;
        changing += 1;
        expect(read(spoilt, trip)).not.toBe(provenOptimal);
      }
      expect(changing).toBeGreaterThan(0);
    },
  );
});
