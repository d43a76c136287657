import { E_FLAT_TUNING, type OpenTuning, openAlter, tuningName } from '../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../engine/harp/profiles/lever-harp-34.ts';
import type { HarpPlan } from '../engine/harp-plan.ts';
import type { LeverMove, LeverPlan } from '../engine/levers/model.ts';
import { add, multiply, rational, subtract } from '../engine/music/rational.ts';
import type { Score } from '../engine/score/model/score.ts';
import { readPitch } from './part-builder.ts';
import { QUIET_MEASURES } from './quiet-measures.ts';

/** A lever plan written by hand, for tests of what shows it: no planner is asked. */
export interface SmallLeverPlan {
  readonly tuning?: OpenTuning;
  /** Strings whose levers are up before the first note: `A3 A4`. */
  readonly up?: string;
  /** Changes by bar number, beat and what the string then gives: `9.4 F#4`, two at one moment `9.4 F#4 C5`. */
  readonly moves?: readonly string[];
}

export const leverPlanFor = (
  score: Score,
  { tuning = E_FLAT_TUNING, up = '', moves = [] }: SmallLeverPlan,
): HarpPlan & { readonly kind: 'lever' } => {
  const initial = up
    .split(' ')
    .filter((name) => name !== '')
    .map((name) => ({ letter: readPitch(name).letter, octave: readPitch(name).octave }));
  const placed = moves.flatMap((text) => readMoves(score, tuning, text));
  const plan: LeverPlan = {
    tuning,
    initial,
    played: [...initial, ...placed.map(({ string }) => string)],
    moves: placed,
    findings: [],
    respellings: [],
    omitted: [],
    tunings: [
      {
        tuning,
        name: tuningName(tuning),
        stops: 0,
        missingNotes: 0,
        changes: placed.length,
        respelled: 0,
        leversUp: initial.length,
        retuned: 0,
      },
    ],
    summary: {
      changes: placed.length,
      minChanges: placed.length,
      leversUp: initial.length,
      busiest: null,
      playable: true,
      firstFailure: null,
      difficulty: {
        grade: 'easy',
        playable: true,
        verdict: 'playable by hands and feet',
        failing: { feet: 0, hands: 0, strings: 0, first: null },
        causes: [{ kind: 'easy', measures: QUIET_MEASURES }],
        reasons: ['No pedal moves while the harp plays, and the hands have time.'],
        measures: QUIET_MEASURES,
        passages: [],
      },
      provenOptimal: true,
      allTuningsTried: true,
    },
  };
  return { kind: 'lever', plan, profile: LEVER_HARP, omitted: [] };
};

const readMoves = (score: Score, tuning: OpenTuning, text: string): LeverMove[] => {
  const [place = '', ...names] = text.split(' ');
  const [number, beatText] = place.split('.');
  const bar = score.bars.findIndex((each) => each.number === number);
  const { onset, meter } = score.bars[bar]!;
  const beat = rational(Number(beatText));
  return names.map((name) => {
    const { letter, octave, alter } = readPitch(name);
    const string = { letter, octave };
    return {
      string,
      to: alter > openAlter(tuning, string) ? 'up' : 'down',
      alter,
      at: add(onset, multiply(subtract(beat, rational(1)), rational(4, meter.beatUnit))),
      bar,
      beat,
      pinned: false,
      graceNote: null,
      hand: 'left',
      handAway: { after: null, before: null },
      restores: false,
      onlyAt: null,
      window: { after: null, before: null },
      cost: [],
    };
  });
};
