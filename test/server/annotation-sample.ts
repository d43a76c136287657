import type { FindingPlace } from '../../engine/findings/model.ts';
import { settingFrom } from '../../engine/harp/setting.ts';
import type { Plan } from '../../engine/pedals/model.ts';
import type { Annotation } from '../../render/annotation.ts';
import { QUIET_MEASURES } from '../quiet-measures.ts';

const ONE_BAR_FAILING = { feet: 1, hands: 0, strings: 0, first: '2a' };

const BUSY_FOOT: FindingPlace = {
  bar: 1,
  barNumber: '2a',
  barName: '2a',
  beat: { num: 3, den: 2 },
  staff: 2,
  hand: null,
  notes: ['n9'],
  sentence: 'The left foot has two pedals to move at once.',
};

const RINGING: FindingPlace = {
  bar: 0,
  barNumber: '1',
  barName: '1',
  beat: { num: 1, den: 1 },
  staff: null,
  hand: null,
  notes: [],
  sentence: 'C3 still rings.',
};

/** One move, C natural to C sharp on the third beat of bar 2a, and one finding of each severity but `note`. */
export const PLAN: Plan = {
  initial: settingFrom((letter) => (letter === 'B' || letter === 'E' ? -1 : 0)),
  moves: [
    {
      letter: 'C',
      foot: 'left',
      from: 0,
      to: 1,
      at: { num: 7, den: 2 },
      bar: 1,
      beat: { num: 3, den: 1 },
      pinned: false,
      graceNote: null,
      restores: false,
      window: {
        after: { note: 'n4', onset: { num: 3, den: 1 } },
        before: { note: 'n9', onset: { num: 16, den: 3 } },
      },
      cost: [
        { name: 'move', amount: 100 },
        { name: 'off-beat', amount: 2.5 },
      ],
    },
  ],
  findings: [
    {
      ...BUSY_FOOT,
      code: 'foot-too-busy',
      severity: 'stop',
      told: {
        kind: 'place',
        code: 'foot-too-busy',
        facts: { foot: 'left', change: { letter: 'C', position: 1 }, last: 'another' },
        guessed: false,
      },
      suggestions: ['Read C♯ as D♭.'],
      fixes: [],
      help: [],
      places: [BUSY_FOOT],
    },
    {
      ...RINGING,
      code: 'ringing-string-moved',
      severity: 'warn',
      told: {
        kind: 'place',
        code: 'ringing-string-moved',
        facts: { harp: 'pedal', change: { letter: 'C', position: 1 }, sounding: [] },
        guessed: false,
      },
      suggestions: [],
      fixes: [],
      help: [],
      places: [RINGING],
    },
  ],
  omitted: [],
  respellings: [
    {
      note: 'n12',
      from: { letter: 'F', alter: -2, octave: 4 },
      to: { letter: 'E', alter: -1, octave: 4 },
    },
  ],
  suggestions: [
    {
      notes: ['n7'],
      octaves: [5],
      from: { letter: 'C', alter: 1, octave: 5 },
      to: { letter: 'D', alter: -1, octave: 5 },
      alongside: [],
      changes: [
        {
          kind: 'respell',
          note: 'n7',
          from: { letter: 'C', alter: 1, octave: 5 },
          to: { letter: 'D', alter: -1, octave: 5 },
        },
      ],
      savesMoves: 1,
      fixesPlaces: 1,
    },
  ],
  summary: {
    moves: 1,
    minMoves: 1,
    provenOptimal: true,
    busiest: { foot: 'left', bar: 1, movesInBar: 1 },
    playable: false,
    firstFailure: 1,
    difficulty: {
      grade: 'hard',
      playable: false,
      verdict: 'not playable as printed: the first problem is in bar 2a; the feet have no time in 1 bar',
      failing: ONE_BAR_FAILING,
      causes: [{ kind: 'unplayable', failing: ONE_BAR_FAILING }],
      reasons: ['Not playable as printed: the feet have no time in 1 bar.'],
      measures: QUIET_MEASURES,
      passages: [
        {
          from: 0,
          until: 1,
          grade: 'hard',
          playable: false,
          causes: [{ kind: 'unplayable', failing: ONE_BAR_FAILING }],
          reasons: ['Not playable as printed: the feet have no time in 1 bar.'],
          measures: QUIET_MEASURES,
        },
      ],
    },
  },
  tunings: [{ string: { letter: 'D', octave: 1 }, alter: -1 }],
  retuned: [],
  footRestSeconds: 0.25,
};

/** What a renderer could answer: two bars on as many pages as are asked for. */
export const sampleAnnotation = (changes: Partial<Annotation> = {}): Annotation => ({
  titles: { title: 'Reeds', subtitle: '', composer: 'Nobody', arranger: '', rights: '' },
  part: { ids: ['P2'], name: 'Harp' },
  parts: [{ id: 'P2', name: 'Harp', staves: 2, notes: 12 }],
  bars: 2,
  barNumbers: ['1', '2a'],
  barNames: ['1', '2a'],
  plan: { kind: 'pedal', plan: PLAN },
  remarks: [
    { code: 'tempo-assumed', barNumber: '', barName: '', message: 'No tempo is stated; 96 is assumed.' },
  ],
  toldElsewhere: [],
  unplayablePlaces: [],
  turns: [],
  pages: ['<svg xmlns="http://www.w3.org/2000/svg" id="page-1"/>'],
  pdf: null,
  ...changes,
});

/** The report of a plan for the pedal harp; any other is a bug of the test. */
export const pedalReport = <T extends { readonly harp: string }>(
  report: T,
): Extract<T, { harp: 'pedal' }> => {
  if (report.harp !== 'pedal') throw new Error(`a report for the ${report.harp} harp`);
  return report as Extract<T, { harp: 'pedal' }>;
};
