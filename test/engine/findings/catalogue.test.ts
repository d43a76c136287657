import { describe, expect, it } from 'vitest';
import {
  type FactsOf,
  FINDINGS,
  type FindingCode,
  LEVER_FINDING_CODES,
  type LeverFindingCode,
  type LeverProofCode,
  PASSAGE_SENTENCES,
  PEDAL_FINDING_CODES,
  type PedalFindingCode,
  PROOF_FINDING_CODES,
  type ProofFindingCode,
  type Told,
  type ToldPlace,
} from '../../../engine/findings/catalogue.ts';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { settingFrom } from '../../../engine/harp/setting.ts';
import { DEFAULT_LEVER_OPTIONS, type LeverOptions } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { rational, ZERO } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { proofreadLevers } from '../../../engine/proof/levers/proofread-levers.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { takeShare } from '../../../engine/sharing/take-share.ts';
import { markedPart, NATURALS } from '../../marked-part.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import { leverPart } from '../proof/levers/lever-part.ts';

/** A part that shows a finding, and one like it that does not. */
interface Example<Part, Options = never> {
  readonly shown: Part;
  readonly absent: Part;
  readonly options?: Partial<Options>;
  /** Where the options make the difference. */
  readonly optionsOfAbsent?: Partial<Options>;
}

const fast = (upper: string): SmallPart => ({ upper, quartersPerMinute: 240 });

/** A part that says how many players share it. */
const sharedBy = (players: number): Score => {
  const score = smallPart({ upper: 'C4/4' });
  return { ...score, harp: { ...score.harp, players } };
};

/** One player's notes where nothing tells whose they are, and where words do. */
const UNTOLD = {
  shown: takeShare(sharedBy(2), '1'),
  absent: takeShare(
    {
      ...sharedBy(2),
      sharing: [
        {
          at: ZERO,
          bar: 0,
          staff: null,
          span: { start: 0, end: 0 },
          kind: 'together',
          players: [1, 2],
          text: 'a 2',
        },
      ],
    },
    '1',
  ),
};

const HANDS = {
  'string-for-both-hands': [
    { shown: { upper: 'C4/1', lower: 'C4/1' }, absent: { upper: 'C4/1', lower: 'C3/1' } },
  ],
  'too-many-notes-in-hand': [
    {
      shown: { upper: 'C4+E4+G4+B4+D5/1', lower: 'C3+E3+G3+B3/1' },
      absent: { upper: 'C4+E4+G4+B4/1', lower: 'C3+E3+G3+B3/1' },
    },
    { shown: { upper: 'C4+E4+G4+B4+D5/1', lower: 'C3+E3+G3+B3/1' }, absent: { upper: 'C4+E4+G4+B4+D5/1' } },
  ],
  'stretch-too-wide': [
    { shown: { upper: 'C4+F5/1', lower: 'C2+E3/1' }, absent: { upper: 'C4+E5/1', lower: 'C2+E3/1' } },
    { shown: { upper: 'C4+F5/1', lower: 'C2+E3/1' }, absent: { upper: 'C4+F5/1{', lower: 'C2+E3/1' } },
    { shown: { upper: 'C4+F5/1', lower: 'C2+E3/1' }, absent: { upper: 'C4+F5/1' } },
  ],
  'string-restruck-fast': [{ shown: fast('C4/1:4 C4/1:4'), absent: fast('C4/1 C4/1') }],
  'harmonic-out-of-range': [{ shown: { upper: 'C6/1o' }, absent: { upper: 'C5/1o' } }],
  'too-many-harmonics': [
    { shown: { upper: 'C4+E4+G4+B4/1o' }, absent: { upper: 'r/1', lower: 'C3+E3/1o' } },
    { shown: { upper: 'C4+E4+G4+B4/1o' }, absent: { upper: 'C4+E4+G4/1o' } },
    { shown: { upper: 'C4+E4/1o', lower: 'C2+E2+G2+C3/1' }, absent: { upper: 'C4+E4/1o', lower: 'E3/1' } },
  ],
} as const;

const GUESSED = {
  shown: { upper: 'C4/1> C5/1' },
  absent: { upper: 'C4/1:4 D4/1:4 E4/1:4 F4/1:4 G4/1:4 A4/1:4 B4/1:4 C4/1> C5/1' },
};

const marked = (part: SmallPart, ...words: readonly string[]): Score =>
  markedPart(part, ...words.map((each) => [1, 1, each] as const));

const CHROMATIC = 'C4+E4+D4+F4/1 C#4+E4/1 D#4+F#4/1 C4+E4/1 | D4+F4/1 C#4+F#4/1 D#4+F4/1 C4+F#4/1';

type PedalExample = Example<SmallPart | Score, PlanOptions>;

const PEDAL: Readonly<Record<PedalFindingCode, readonly PedalExample[]>> = {
  ...HANDS,
  'string-restruck-fast': [
    ...HANDS['string-restruck-fast'],
    // Set to another pitch in between, it needs longer; the other string of the pitch needs no time at all.
    { shown: fast('C4/1:4 C#4/1:4'), absent: fast('C4/1:4 Db4/1:4') },
    { shown: { upper: 'r/1 (C4) C#4/1' }, absent: { upper: 'C4/1 C#4/1' } },
  ],
  'foot-too-busy': [{ shown: fast('C4+D4/1:4 C#4+D#4/1:4 r/1'), absent: { upper: 'C4+D4/1 C#4+D#4/1' } }],
  'feet-hurried-passage': [
    {
      // Eight pedals in four seconds; then the same in eight.
      shown: { upper: CHROMATIC, quartersPerMinute: 120 },
      absent: { upper: CHROMATIC, quartersPerMinute: 40 },
    },
  ],
  'pedal-in-two-positions': [{ shown: { upper: 'C4+C#5/1' }, absent: { upper: 'C4+C5/1' } }],
  'string-in-two-pitches': [
    { shown: { upper: 'C4/1', lower: 'C#4/1' }, absent: { upper: 'C4/1', lower: 'Db4/1' } },
  ],
  'written-for-several': [{ shown: sharedBy(2), absent: sharedBy(1) }],
  'shared-notes-kept': [UNTOLD],
  'out-of-range': [{ shown: { upper: 'A7/1' }, absent: { upper: 'F7/1' } }],
  'fixed-string-tuning': [
    { shown: { upper: 'r/1', lower: 'D1/1' }, absent: { upper: 'r/1', lower: 'E1/1' } },
  ],
  'fixed-string-in-two-pitches': [
    {
      shown: { upper: 'r/2', lower: 'D1/1 Db1/1' },
      absent: { upper: 'r/2', lower: 'Db1/1 Db1/1' },
    },
  ],
  'double-accidental': [{ shown: { upper: 'F##4/1' }, absent: { upper: 'F#4/1' } }],
  'played-on-other-string': [{ shown: { upper: 'D5/4tr(D#5)' }, absent: { upper: 'D5/4tr(E5)' } }],
  'quarter-tone': [{ shown: { upper: 'Cq4/1' }, absent: { upper: 'C#4/1' } }],
  'string-retuned': [
    {
      shown: { upper: 'E4/1' },
      absent: { upper: 'E4/1' },
      options: { scordatura: new Map([['D4', -50]]) },
      optionsOfAbsent: { scordatura: new Map([['D4', 50]]) },
    },
  ],
  'string-tuned-higher': [
    {
      shown: { upper: 'E4/1' },
      absent: { upper: 'E4/1' },
      options: { scordatura: new Map([['D4', 50]]) },
      optionsOfAbsent: { scordatura: new Map([['D4', -50]]) },
    },
  ],
  'pitch-lost-by-retuning': [
    {
      shown: { upper: 'D4/1' },
      absent: { upper: 'Eb4/1' },
      options: { scordatura: new Map([['D4', -50]]) },
    },
  ],
  'ringing-string-moved': [
    { shown: { upper: 'r/2 (C4) (C#5) E5/2' }, absent: { upper: 'r/2 (C4) (Db5) E5/2' } },
    {
      shown: { upper: 'r/2 C#5/2', lower: 'C2/4' },
      absent: { upper: 'r/2 C#5/2', lower: 'C2/1' },
    },
  ],
  'glissando-setting-guessed': [GUESSED],
  'repeat-restored': [
    {
      shown: { upper: 'r/1 C4/1 r/2 | r/2 C#4/2', playOrder: [0, 1, 0, 1] },
      absent: { upper: 'r/1 C4/1 r/2 | r/2 C#4/2' },
    },
  ],
  'pedals-together': [
    {
      shown: fast('C4+D4/1:4 C#4+D#4/1:4 r/1'),
      absent: fast('C4+D4/1:4 C#4+Db4/1:4 r/1'),
      options: { pedalsTogether: true },
    },
  ],
  'foot-crossed': [
    {
      shown: fast('C4+B4/1:4 C#4+Bb4/1:4 r/1'),
      absent: fast('C4+D4/1:4 C#4+Db4/1:4 r/1'),
      options: { crossFeet: true },
    },
  ],
  // H. Berlioz, Traité d'instrumentation, La Harpe: in B major write the harp in C flat major.
  'flat-key-rings-fuller': [
    { shown: { upper: 'B4/1', keyFifths: 5 }, absent: { upper: 'Cb5/1', keyFifths: -7 } },
  ],
  'pin-not-honoured': [
    {
      shown: { upper: 'C4/1 r/3 | r/2 C#4/2' },
      absent: { upper: 'E4/1 r/3 | r/2 E4/2' },
      options: { pins: [{ kind: 'position', letter: 'C', position: -1, from: ZERO, until: null }] },
    },
  ],
  'marking-contradicts-notes': [
    { shown: marked({ upper: 'C#4/4' }, 'C♮'), absent: marked({ upper: 'C#4/4' }, 'C♯') },
  ],
};

type LeverExample = Example<SmallPart | Score, LeverOptions>;

/** Notes that leave the right hand no time to be away. */
const FULL = 'C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2';
const BUSY = 'C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2 C3/1:2';
const BUSY_RIGHT = 'C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2';

const LEVER: Readonly<Record<LeverFindingCode, readonly LeverExample[]>> = {
  ...HANDS,
  'written-for-several': [{ shown: sharedBy(2), absent: sharedBy(1) }],
  'shared-notes-kept': [UNTOLD],
  'out-of-range': [{ shown: { upper: 'C7/1' }, absent: { upper: 'A6/1' } }],
  'string-in-two-pitches': [{ shown: { upper: 'F4+F#4/4' }, absent: { upper: 'F4+F#5/4' } }],
  'quarter-tone': [{ shown: { upper: 'Cq4/4' }, absent: { upper: 'C#4/4' } }],
  'double-accidental': [{ shown: { upper: 'Dbb4/4' }, absent: { upper: 'C4/4' } }],
  'played-on-other-string': [
    { shown: { upper: 'F#4/4' }, absent: { upper: 'Gb4/4' }, options: { tuning: tuneToKey(-7) } },
  ],
  'octaves-differ': [{ shown: { upper: 'F4+F#5/4' }, absent: { upper: 'F4+F5/4' } }],
  'ringing-string-moved': [{ shown: { upper: 'F4/4 | F#4/4' }, absent: { upper: 'F4/3 r/1 | F#4/4' } }],
  'glissando-setting-guessed': [GUESSED],
  'strings-to-retune': [
    { shown: { upper: 'A4/4' }, absent: { upper: 'C4/4' }, options: { tuning: tuneToKey(0) } },
  ],
  'no-string-in-tuning': [
    {
      // With A flat and B natural no string gives what lies between A and B.
      shown: { upper: 'Bb4/4' },
      absent: { upper: 'B4/4' },
      options: {
        tuning: { letters: settingFrom((letter) => (letter === 'A' ? -1 : 0)), exceptions: [] },
      },
    },
  ],
  'no-free-hand': [
    {
      shown: { upper: `F4/1:2 ${BUSY_RIGHT} | F#4/4`, lower: `${BUSY} | ${BUSY}` },
      absent: { upper: `F4/1:2 ${BUSY_RIGHT} | F#4/4` },
    },
  ],
  'hand-too-busy': [
    {
      shown: { upper: 'F4+C4+C5/1:2 r/1:2 F#4+C#4+C#5/1', quartersPerMinute: 120 },
      absent: { upper: 'F4+C4/1:2 r/1:2 F#4+C#4/1', quartersPerMinute: 120 },
      options: { leverSeconds: 0.2 },
    },
  ],
  'other-hand-taken': [
    {
      shown: { upper: 'F4/1 r/3 | F#4/4', lower: `${BUSY} | ${BUSY}` },
      absent: { upper: 'F4/1 r/3 | F#4/4' },
    },
  ],
  'lever-short-lead': [
    {
      // The left hand is free only until it plucks D3; the right plucks F♯4 a fifth of a second after the rest begins.
      shown: { upper: 'F4/4 | r/1:5 F#4/19:5', lower: 'D3/3 r/1 | r/4', quartersPerMinute: 60 },
      absent: { upper: 'F4/4 | r/1 F#4/3', lower: 'D3/3 r/1 | r/4', quartersPerMinute: 60 },
    },
  ],
  'lever-far-ahead': [
    {
      shown: { upper: `F4/1 r/3 | ${`${FULL} | `.repeat(6)}F#4/4`, lower: `${BUSY} | `.repeat(7) + BUSY },
      absent: { upper: `F4/1 r/3 | ${`${FULL} | `.repeat(2)}F#4/4`, lower: `${BUSY} | `.repeat(3) + BUSY },
    },
  ],
  'hands-hurried-passage': [
    {
      shown: {
        upper: 'C4/1 F4/1 C5/1 F5/1 | C#4/1 F#4/1 C#5/1 F#5/1 | C4/1 F4/1 C5/1 F5/1',
        quartersPerMinute: 120,
      },
      absent: {
        upper: 'C4/1 F4/1 C5/1 F5/1 | C#4/1 F#4/1 C#5/1 F#5/1 | C4/1 F4/1 C5/1 F5/1',
        quartersPerMinute: 40,
      },
      options: { leverSeconds: 0.3 },
    },
  ],
  'lever-restored': [
    {
      shown: { upper: 'r/1 F4/1 r/2 | r/2 F#4/2', playOrder: [0, 1, 0, 1] },
      absent: { upper: 'r/1 F4/1 r/2 | r/2 F#4/2' },
    },
  ],
  'lever-pin-not-honoured': [
    {
      shown: { upper: 'F4/1 r/3 | F#4/4' },
      absent: { upper: 'F4/1 r/3 | F4/4' },
      options: { tuning: LEVER_HARP.tuning, pins: [{ kind: 'forbid', from: ZERO, until: rational(8) }] },
    },
  ],
};

const AGAIN = [0, 1, 2, 1, 2];

const PROOF: Readonly<Record<Exclude<ProofFindingCode, LeverProofCode>, readonly Example<Score>[]>> = {
  'no-markings': [{ shown: marked({ upper: 'C4/4' }), absent: marked({ upper: 'C4/4' }, NATURALS) }],
  'words-not-understood': [
    {
      shown: {
        ...markedPart({ upper: 'C4/4' }, [1, 1, NATURALS]),
        unreadWords: [{ at: ZERO, bar: 0, span: { start: 0, end: 0 }, text: 'E♭♭' }],
      },
      absent: markedPart({ upper: 'C4/4' }, [1, 1, NATURALS]),
    },
  ],
  'notes-before-marking': [
    { shown: marked({ upper: 'C#4/2 E4/2' }, 'C♯'), absent: marked({ upper: 'C#4/2 C#5/2' }, 'C♯') },
  ],
  'note-not-served': [
    {
      shown: markedPart({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS]),
      absent: markedPart({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♯']),
    },
  ],
  'repeat-lands-wrong': [
    {
      shown: markedPart({ upper: 'r/4 | C4/4 | C#4/4', playOrder: AGAIN }, [1, 1, NATURALS], [3, 1, 'C♯']),
      absent: markedPart(
        { upper: 'r/4 | C4/4 | C#4/4', playOrder: AGAIN },
        [1, 1, NATURALS],
        [2, 1, 'C♮'],
        [3, 1, 'C♯'],
      ),
    },
  ],
  'change-too-quick': [
    {
      shown: markedPart(
        { upper: 'C4/1 D4/1 C#4/1:8 D#4/15:8' },
        [1, 1, NATURALS],
        [1, 3, 'C♯'],
        [1, 3.125, 'D♯'],
      ),
      absent: markedPart(
        { upper: 'C4/1 D4/1 C#4/1:4 D#4/7:4' },
        [1, 1, NATURALS],
        [1, 3, 'C♯'],
        [1, 3.25, 'D♯'],
      ),
    },
  ],
  'markings-contradict': [
    {
      shown: markedPart({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♭'], [2, 1, 'C♯']),
      absent: markedPart({ upper: 'C4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♯'], [2, 1, 'C♯']),
    },
  ],
  'marking-needless': [
    {
      shown: markedPart({ upper: 'C4/4 | C4/4' }, [1, 1, NATURALS], [2, 1, 'C♮']),
      absent: markedPart({ upper: 'C4/4 | C4/4' }, [1, 1, NATURALS], [2, 1, NATURALS]),
    },
  ],
  'marking-bends-string': [
    {
      shown: markedPart({ upper: 'C4/4 | r/4 | C#4/4' }, [1, 1, NATURALS], [1, 3, 'C♯']),
      absent: markedPart({ upper: 'C4/4 | r/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♯']),
    },
  ],
  'marking-late': [
    {
      shown: markedPart({ upper: 'C4/4 | D4/4 | C#4/4' }, [1, 1, NATURALS], [3, 1, 'C♯']),
      absent: markedPart({ upper: 'C4/4 | D4/4 | C#4/4' }, [1, 1, NATURALS], [2, 1, 'C♯']),
    },
  ],
  'marking-early': [
    {
      shown: markedPart({ upper: `C4/4 | ${'D4/4 | '.repeat(10)}C#4/4` }, [1, 1, NATURALS], [2, 1, 'C♯']),
      absent: markedPart({ upper: `C4/4 | ${'D4/4 | '.repeat(10)}C#4/4` }, [1, 1, NATURALS], [11, 1, 'C♯']),
    },
  ],
  'glissando-unlike-key': [
    {
      shown: marked({ upper: 'C4/2> C6/2' }, 'D♮ C♮ B♭ E♮ F♯ G♮ A♮'),
      absent: marked({ upper: 'C4/2> C6/2' }, NATURALS),
    },
  ],
};

const TABLE = [1, 1, 'All levers down'] as const;
const TURN = { upper: 'F4/1 r/3 | F#4/1 r/3 | r/2 F4/2', keyFifths: -3 };
/** F, and seven bars later F sharp. */
const LONG_BEFORE = `F4/1 r/3 | ${'G4/4 | '.repeat(6)}F#4/4`;
const NO_HAND = { upper: 'F4/1 G4/1 G4/1 G4/1 | F#4/4', lower: 'E2/1 E2/1 E2/1 E2/1 | E2/4', keyFifths: -3 };

const LEVER_PROOF: Readonly<Record<LeverProofCode, readonly Example<Score>[]>> = {
  'no-lever-markings': [{ shown: leverPart(TURN), absent: leverPart(TURN, TABLE) }],
  'lever-words-not-understood': [
    {
      shown: leverPart(TURN, TABLE, [1, 3, 'flip the lever']),
      absent: leverPart(TURN, TABLE, [1, 3, 'F♯4']),
    },
  ],
  'lever-name-not-on-harp': [
    { shown: leverPart(TURN, TABLE, [1, 3, 'F♯8']), absent: leverPart(TURN, TABLE, [1, 3, 'F♯4']) },
    { shown: leverPart(TURN, TABLE, [1, 3, 'F♭4']), absent: leverPart(TURN, TABLE, [1, 3, 'F♮4']) },
  ],
  'levers-not-told': [
    { shown: leverPart(TURN, [1, 3, 'F♯4']), absent: leverPart(TURN, TABLE, [1, 3, 'F♯4']) },
  ],
  'lever-note-not-served': [
    { shown: leverPart(TURN, TABLE), absent: leverPart(TURN, TABLE, [1, 3, 'F♯4'], [2, 3, 'F♮4']) },
  ],
  'lever-marking-without-time': [
    {
      shown: leverPart({ ...NO_HAND, quartersPerMinute: 200 }, TABLE, [1, 4, 'F♯4']),
      absent: leverPart({ ...NO_HAND, quartersPerMinute: 40 }, TABLE, [1, 2, 'F♯4']),
    },
  ],
  'lever-markings-contradict': [
    {
      shown: leverPart(TURN, TABLE, [1, 3, 'F♯4'], [1, 3, 'F♮4']),
      absent: leverPart(TURN, TABLE, [1, 3, 'F♯4'], [1, 3, 'F♯4']),
    },
  ],
  'lever-marking-needless': [
    {
      shown: leverPart(TURN, TABLE, [1, 3, 'F♯4'], [2, 2, 'F♯4'], [2, 3, 'F♮4']),
      absent: leverPart(TURN, TABLE, [1, 3, 'F♯4'], [2, 3, 'F♮4']),
    },
  ],
  'lever-marking-bends-string': [
    {
      shown: leverPart({ ...TURN, upper: 'F4/2 r/2 | F#4/4' }, TABLE, [1, 2, 'F♯4']),
      absent: leverPart({ ...TURN, upper: 'F4/2 r/2 | F#4/4' }, TABLE, [1, 3, 'F♯4']),
    },
  ],
  'lever-marking-late': [
    {
      shown: leverPart({ ...TURN, upper: 'F4/1 r/3 | F#4/4' }, TABLE, [2, 1, 'F♯4']),
      absent: leverPart({ ...TURN, upper: 'F4/1 r/3 | F#4/4' }, TABLE, [1, 4, 'F♯4']),
    },
    // Until just before it the string was needed.
    {
      shown: leverPart({ ...TURN, upper: 'F4/1 r/3 | F#4/4' }, TABLE, [2, 1, 'F4 up']),
      absent: leverPart({ ...TURN, upper: 'r/2 F4/2 | F#4/4' }, TABLE, [2, 1, 'F♯4']),
    },
  ],
  'lever-marking-early': [
    {
      shown: leverPart({ ...TURN, upper: LONG_BEFORE }, TABLE, [1, 2, 'F♯4']),
      absent: leverPart({ ...TURN, upper: LONG_BEFORE }, TABLE, [7, 1, 'F♯4']),
    },
  ],
};

const leverProofOf = (score: Score) =>
  proofreadLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning }).findings;

const scoreOf = (part: SmallPart | Score): Score => ('bars' in part ? part : smallPart(part));

const planOf = (part: SmallPart | Score, options: Partial<PlanOptions> = {}) =>
  planPedals(scoreOf(part), { ...DEFAULT_PLAN_OPTIONS, ...options }).findings;

const leverPlanOf = (part: SmallPart | Score, options: Partial<LeverOptions> = {}) =>
  planLevers(scoreOf(part), { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning, ...options }).findings;

const proofOf = (score: Score) => proofreadScore(score).findings;

type Found = readonly {
  readonly code: string;
  readonly sentence: string;
  readonly severity: string;
  readonly told: Told<FindingCode>;
}[];

/** The sentence again, from what the finding keeps to be told in any language. */
const tellAgain = (told: Told<FindingCode>): string =>
  told.kind === 'passage'
    ? PASSAGE_SENTENCES[told.code](told.places, told.guessed)
    : tellPlace(told, FINDINGS);

const tellPlace = <Code extends FindingCode>(
  { code, facts }: ToldPlace<Code>,
  findings: { readonly [Each in FindingCode]: { readonly sentence: (facts: FactsOf<Each>) => string } },
): string => findings[code].sentence(facts);

/** Each code with what is found in its two parts. */
const tryEach = <Part, Options>(
  examples: Readonly<Record<string, readonly Example<Part, Options>[]>>,
  find: (part: Part, options?: Partial<Options>) => Found,
) =>
  Object.entries(examples).flatMap(([code, each]) =>
    each.map(({ shown, absent, options, optionsOfAbsent = options }) => ({
      code: code as FindingCode,
      inShown: () => find(shown, options),
      inAbsent: () => find(absent, optionsOfAbsent),
    })),
  );

describe.each([
  { who: 'the pedal planner', codes: PEDAL_FINDING_CODES, examples: PEDAL, tries: tryEach(PEDAL, planOf) },
  {
    who: 'the lever planner',
    codes: LEVER_FINDING_CODES,
    examples: LEVER,
    tries: tryEach(LEVER, leverPlanOf),
  },
  {
    who: 'the proofreader',
    codes: PROOF_FINDING_CODES,
    examples: { ...PROOF, ...LEVER_PROOF },
    tries: [...tryEach(PROOF, proofOf), ...tryEach(LEVER_PROOF, leverProofOf)],
  },
])('$who', ({ codes, examples, tries }) => {
  it('has two parts for each of its codes', () => {
    expect(Object.keys(examples).sort()).toEqual([...codes].sort());
  });

  it.each(tries)('tells $code where it is, and not where it is not', ({ code, inShown, inAbsent }) => {
    const told = inShown().filter((each) => each.code === code);
    expect(told.length).toBeGreaterThan(0);
    expect(inAbsent().map((each) => each.code)).not.toContain(code);
    for (const { sentence, severity, told: facts } of told) {
      expect(severity).toBe(FINDINGS[code].severity);
      expect(tellAgain(facts)).toBe(sentence);
      expect(sentence).toMatch(/^[A-Z].*[^.]\.$/);
      expect(sentence).not.toMatch(/undefined|null|NaN|\ba [AEF]\b/);
    }
  });
});

describe('the catalogue', () => {
  it('says of every code when it is told, in a sentence, under a heading', () => {
    for (const [code, { title, when, harps }] of Object.entries(FINDINGS)) {
      expect(title, code).toMatch(/^[A-Z].*[^.]$/);
      expect(when, code).toMatch(/^[A-Z].*\.$/);
      expect(harps.length, code).toBeGreaterThan(0);
    }
  });
});
