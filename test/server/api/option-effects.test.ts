import { describe, expect, it } from 'vitest';
import type { Pin } from '../../../engine/harp/pin.ts';
import { rational, ZERO } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { DEFAULT_WEIGHTS } from '../../../engine/pedals/weights.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import type { OPTION_CATALOGUE } from '../../../render/option-catalogue.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import type { Target } from '../../../server/threads/tasks/annotate/annotated.ts';
import { computePlan } from '../../../server/threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { demoBeginning, demoFile } from '../../demo-score.ts';
import {
  bar,
  barline,
  buildHarp,
  direction,
  note,
  rest,
  words,
} from '../../engine/score/musicxml/musicxml-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { annotator } from '../../render/shared-annotator.ts';
import { fluteAndHarp, meiScore } from '../../render/small-score.ts';

const encode = (xml: string): Uint8Array => new TextEncoder().encode(xml);

const FAST = direction('<words/>', '<sound tempo="240"/>');
const MARK = direction('<rehearsal>A</rehearsal>');
const FILE_SETTING = direction(
  `<harp-pedals>${[...'DCBEFGA'].map((step) => `<pedal-tuning><pedal-step>${step}</pedal-step><pedal-alter>${step === 'B' ? -1 : 0}</pedal-alter></pedal-tuning>`).join('')}</harp-pedals>`,
);

/** Sixteenths of two strings at once, changed at once: pedals of one foot. */
const together = (first: readonly [string, string], then: readonly [string, string]): Uint8Array =>
  encode(
    buildHarp(
      `${FAST}${[first, then].map(([low, high]) => `${note(low, 0.25)}${note(high, 0.25, { chord: true })}`).join('')}${rest(3.5)}`,
    ),
  );

const NEIGHBOURS = together(['C4', 'D4'], ['C#4', 'D#4']);
const ACROSS = together(['C4', 'B4'], ['C#4', 'Bb4']);
const CHROMATIC = encode(buildHarp(FAST + ['C4', 'C#4', 'C4', 'C#4'].map((each) => note(each)).join('')));
const DOUBLE_SHARP = encode(buildHarp(note('F##4', 4)));
const CHANGE = encode(buildHarp(note('C4', 4), MARK + note('C#4', 4), note('D4', 4)));
const CHANGED_BEFORE = encode(buildHarp(note('C4', 4), note('C#4', 4), MARK + note('D4', 4)));
const AHEAD = encode(buildHarp(note('C4', 1) + rest(3), note('D4', 1) + rest(3), note('C#4', 4)));
const NEW_KEY = encode(
  buildHarp(
    note('C4', 4),
    note('D4', 4),
    `<attributes><key><fifths>3</fifths></key></attributes>${note('D4', 4)}`,
  ),
);
const PLAIN = encode(buildHarp(note('C4', 4), note('C#4', 4)));
const THREE_CHANGES = encode(
  buildHarp(
    ['C4', 'F4', 'G4', 'D4'].map((each) => note(each)).join(''),
    rest(4),
    ['C#4', 'F#4', 'G#4', 'E4'].map((each) => note(each)).join(''),
  ),
);
const SWEEP = encode(
  buildHarp(
    note('C4', 4),
    note('C#4', 4),
    `${note('C4', 2, { notations: '<glissando type="start" number="1" line-type="wavy"/>' })}${note('C6', 2, { notations: '<glissando type="stop" number="1" line-type="wavy"/>' })}`,
  ),
);
const LEDGERS = meiScore({ bars: ['b2.1/R'] });
const RESTING = encode(buildHarp(note('C4', 4), ...Array.from({ length: 4 }, () => rest(4)), note('D4', 4)));
const MARKED = encode(buildHarp(FILE_SETTING + note('B4', 4), note('B4', 4)));
const BROKEN = encode(buildHarp(note('C4', 4), `<print new-system="yes"/>${note('D4', 4)}`));
const FINGERED = encode(
  buildHarp(note('C4', 4, { notations: '<technical><fingering>5</fingering></technical>' })),
);
const TWO_MOVEMENTS = encode(
  buildHarp(
    note('C4', 4),
    note('D4', 4) + barline('<bar-style>light-heavy</bar-style>'),
    bar(note('E4', 4), { number: '1' }),
  ),
);
const LONG = encode(buildHarp(...Array.from({ length: 30 }, () => note('C4', 1) + note('D4', 3))));
const SHARED = encode(
  buildHarp(words('I') + note('C4', 4), words('II') + note('C#4', 4), words('a 2') + note('D4', 4)),
);
const CUED = fluteAndHarp(['c4', ...Array.from({ length: 8 }, () => null), 'd4'], {});
const SMALL_PAPER = { paper: { widthMm: 120, heightMm: 120 } };

const RIBBONS = encode(demoBeginning('the-ribbon-stall'));
const LANTERNS = demoFile('lanterns-at-the-lock');

type Catalogue = typeof OPTION_CATALOGUE;
type Members<G extends 'settings' | 'paper'> = `${G}.${keyof Catalogue[G]['members'] & string}`;
type Name = Exclude<keyof Catalogue, 'weights' | 'settings'> | Members<'settings'> | Members<'paper'>;

interface Shown {
  readonly on: Uint8Array;
  /** Other than by default. */
  readonly given: Readonly<Record<string, unknown>>;
  /** What else is chosen, with and without. */
  readonly beside?: Readonly<Record<string, unknown>>;
}

/** A score on which each option shows; the compiler wants an entry for every one. */
const SHOWN: Readonly<Record<Name, Shown>> = {
  player: { on: SHARED, given: { player: '2' } },
  divide: { on: CHANGE, given: { divide: 'balanced' }, beside: { player: '2' } },
  spelling: { on: CHROMATIC, given: { spelling: 'free' } },
  followMarkings: { on: MARKED, given: { followMarkings: true } },
  footRestSeconds: { on: CHROMATIC, given: { footRestSeconds: 2 } },
  pedalsTogether: { on: NEIGHBOURS, given: { pedalsTogether: true } },
  crossFeet: { on: ACROSS, given: { crossFeet: true } },
  scordatura: { on: CHANGE, given: { scordatura: 'C4 +100' } },
  tuning: { on: RIBBONS, given: { tuning: 'C major' } },
  leverSeconds: { on: RIBBONS, given: { leverSeconds: 3 } },
  settingLook: { on: CHANGE, given: { settingLook: 'letters-one-row' } },
  leverLook: { on: RIBBONS, given: { leverLook: 'notes' } },
  settingMm: { on: CHANGE, given: { settingMm: 60 } },
  changeWords: { on: CHANGE, given: { changeWords: true } },
  leverTables: { on: RIBBONS, given: { leverTables: 'each-line' } },
  blanks: { on: CHANGE, given: { blanks: 'none' }, beside: { edition: 'exercise' } },
  level: { on: CHANGE, given: { level: 'beginner' } },
  beatCounts: { on: CHANGE, given: { beatCounts: 'every-bar' } },
  leverHands: { on: RIBBONS, given: { leverHands: true } },
  naming: { on: PLAIN, given: { naming: 'german' } },
  language: { on: PLAIN, given: { language: 'german' } },
  placement: { on: CHANGE, given: { placement: 'above' } },
  density: { on: PLAIN, given: { density: 'settings' } },
  legend: { on: CHANGE, given: { legend: true } },
  marksAt: { on: AHEAD, given: { marksAt: 'note' } },
  circleChanged: { on: CHANGED_BEFORE, given: { circleChanged: true } },
  numberUnplayable: { on: NEIGHBOURS, given: { numberUnplayable: false } },
  fileSettings: { on: CHANGE, given: { fileSettings: 'both' } },
  fileMarkings: { on: MARKED, given: { fileMarkings: true } },
  'settings.start': { on: CHANGE, given: { settings: { start: false } } },
  'settings.movements': { on: TWO_MOVEMENTS, given: { settings: { movements: false } } },
  'settings.rehearsalMarks': { on: CHANGE, given: { settings: { rehearsalMarks: false } } },
  'settings.glissandi': { on: SWEEP, given: { settings: { glissandi: false } } },
  'settings.keyChangeLetters': { on: NEW_KEY, given: { settings: { keyChangeLetters: null } } },
  'settings.threeChanges': { on: THREE_CHANGES, given: { settings: { threeChanges: false } } },
  'settings.systemStart': { on: LONG, given: { settings: { systemStart: true } } },
  'settings.pageStart': { on: LONG, given: { settings: { pageStart: true } }, beside: SMALL_PAPER },
  'settings.afterRestBars': { on: RESTING, given: { settings: { afterRestBars: null } } },
  edition: { on: CHANGE, given: { edition: 'study' } },
  paper: { on: CHANGE, given: { paper: 'a3' } },
  'paper.widthMm': { on: CHANGE, given: { paper: { widthMm: 230, heightMm: 297 } } },
  'paper.heightMm': { on: CHANGE, given: { paper: { widthMm: 210, heightMm: 250 } } },
  staffMm: { on: CHANGE, given: { staffMm: 6 } },
  pageTurns: { on: LONG, given: { pageTurns: 'anywhere' }, beside: SMALL_PAPER },
  turnWords: { on: LONG, given: { turnWords: true }, beside: SMALL_PAPER },
  barNumbers: { on: LONG, given: { barNumbers: 1 } },
  withPart: { on: CUED, given: { withPart: 'Flute' } },
  cues: { on: CUED, given: { cues: 8 } },
  cueSeconds: { on: CUED, given: { cueSeconds: 12 } },
  cueBars: { on: CUED, given: { cueBars: 4 }, beside: { cues: 8 } },
  keepBreaks: { on: BROKEN, given: { keepBreaks: true } },
  multiBarRests: { on: RESTING, given: { multiBarRests: false } },
  restRanges: { on: RESTING, given: { restRanges: true } },
  crossStaves: { on: LEDGERS, given: { crossStaves: true } },
  stringColours: { on: CHANGE, given: { stringColours: 'c-red-f-blue' } },
  fifthFinger: { on: FINGERED, given: { fifthFinger: true } },
  respelledLook: { on: DOUBLE_SHARP, given: { respelledLook: 'plain' } },
};

const made = async (on: Uint8Array, given: Readonly<Record<string, unknown>>): Promise<string> => {
  const choice = annotateOptions.parse(given);
  const upload = { bytes: on, fileName: '' };
  const plan = await computePlan(upload, choice, startStageClock(IGNORE_PROGRESS));
  const annotate = (target: Target) =>
    annotateScore(upload, choice, target, annotator, startStageClock(IGNORE_PROGRESS));
  const drawn = await annotate({ kind: 'svg' });
  const written = await annotate({ kind: 'source', kinds: ['musicxml', 'mei'] });
  if (!plan.ok || !drawn.ok || !written.ok)
    throw new Error(JSON.stringify([plan, drawn, written].find(({ ok }) => !ok)));
  const { pages, turns } = drawn.value.annotation;
  const file = new TextDecoder().decode(written.value.source!.bytes);
  return JSON.stringify([plan.value, pages, turns, file]);
};

const read = (bytes: Uint8Array): Score => {
  const score = openScore(bytes);
  if (!score.ok) throw new Error(score.problem.code);
  return score.value;
};

/** What is made without the option: much is chosen beside nothing, on the same few scores. */
const madeWithout = (() => {
  const known = new Map<Uint8Array, Map<string, Promise<string>>>();
  return (on: Uint8Array, beside: Readonly<Record<string, unknown>>): Promise<string> => {
    const ofScore = known.get(on) ?? new Map<string, Promise<string>>();
    known.set(on, ofScore);
    const key = JSON.stringify(beside);
    const result = ofScore.get(key) ?? made(on, beside);
    ofScore.set(key, result);
    return result;
  };
})();

describe('every option does something', () => {
  it.each(Object.entries(SHOWN))('%s', async (_name, { on, given, beside = {} }) => {
    expect(await made(on, { ...beside, ...given })).not.toBe(await madeWithout(on, beside));
  });

  it('prices and times: the planner looks at each', () => {
    const looked = new Set<string>();
    const weights = new Proxy(DEFAULT_WEIGHTS, {
      get: (target, name) => {
        looked.add(String(name));
        return Reflect.get(target, name);
      },
    });
    const pins: readonly Pin[] = [{ kind: 'forbid', from: ZERO, until: rational(8) }];
    const repeated = { upper: 'r/1 C4/1 r/2 | r/2 C#4/2', playOrder: [0, 1, 0, 1] };
    for (const score of [read(LANTERNS), read(NEIGHBOURS), smallPart(repeated)]) {
      for (const spelling of ['keep', 'free'] as const) {
        planPedals(score, { ...DEFAULT_PLAN_OPTIONS, weights, pins, spelling, pedalsTogether: true });
      }
    }
    expect(Object.keys(DEFAULT_WEIGHTS).filter((name) => !looked.has(name))).toEqual([]);
  });
});
