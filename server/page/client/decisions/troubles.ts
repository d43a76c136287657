import {
  FINDINGS,
  type PedalFinding,
  type PlanFindingCode,
  rationalKey,
  type Severity,
  stopPlaces,
} from '../../../../engine/index.ts';

/** A finding as far as it tells of something that goes wrong, of either harp. */
export interface ToldFinding {
  readonly code: PlanFindingCode;
  readonly severity: Severity;
  readonly places: readonly {
    /** By what the place is known again in another plan. */
    readonly key: string;
    /** The name of its bar. */
    readonly bar: string;
    /** An exact fraction. */
    readonly beat: string;
    /** Ids. */
    readonly notes: readonly string[];
    readonly sentence: string;
  }[];
}

/** What goes wrong since a decision: it is not followed there, or it makes the place unplayable. */
export interface Trouble {
  readonly kind: 'refused' | 'unplayable';
  readonly bar: string;
  readonly sentence: string;
}

const kindOf = ({ code, severity }: ToldFinding): Trouble['kind'] | null =>
  FINDINGS[code].refusesDecision ? 'refused' : severity === 'stop' ? 'unplayable' : null;

/** Findings of the pedals as they come from the engine. */
export const toldOfPedals = (findings: readonly PedalFinding[]): readonly ToldFinding[] =>
  findings.map(({ code, severity, places }) => ({
    code,
    severity,
    places: places.map(({ bar, barName, beat, notes, sentence }) => ({
      key: `${bar} ${rationalKey(beat)}`,
      bar: barName,
      beat: rationalKey(beat),
      notes,
      sentence,
    })),
  }));

/** Findings of the levers as a report has them. */
export const toldOfLevers = (
  findings: readonly {
    readonly code: PlanFindingCode;
    readonly severity: Severity;
    readonly places: readonly {
      readonly barIndex: number;
      readonly barName: string;
      readonly beat: string;
      readonly notes: readonly string[];
      readonly sentence: string;
    }[];
  }[],
): readonly ToldFinding[] =>
  findings.map(({ code, severity, places }) => ({
    code,
    severity,
    places: places.map(({ barIndex, barName, beat, notes, sentence }) => ({
      key: `${barIndex} ${beat}`,
      bar: barName,
      beat,
      notes,
      sentence,
    })),
  }));

/** What goes wrong by a plan that by another did not, each sentence of a bar once. */
export const newTroubles = (
  before: readonly ToldFinding[],
  after: readonly ToldFinding[],
): readonly Trouble[] => {
  // A refusal is known by its words too: another decision is refused at the same place.
  const keysOf = (finding: ToldFinding) =>
    finding.places.map(({ key, sentence }) =>
      kindOf(finding) === 'refused' ? `${key} ${sentence}` : `${key} ${finding.code}`,
    );
  const known = new Set(before.flatMap(keysOf));
  const troubles = new Map<string, Trouble>();
  for (const finding of after) {
    const kind = kindOf(finding);
    if (kind === null) continue;
    const keys = keysOf(finding);
    finding.places.forEach(({ bar, sentence }, i) => {
      if (!known.has(keys[i]!)) troubles.set(`${bar} ${sentence}`, { kind, bar, sentence });
    });
  }
  return [...troubles.values()];
};

/** What can be played by a plan that could not by another. */
export interface Solved {
  /** Names of the bars in which something could not be played and everything can be now. */
  readonly bars: readonly string[];
  /** What can be played now in other bars: names of their bars, and beats as exact fractions. */
  readonly places: readonly { readonly bar: string; readonly beat: string }[];
  /** Places of the part that still cannot be played. */
  readonly left: number;
}

type ToldPlace = ToldFinding['places'][number];

const stopsOf = (findings: readonly ToldFinding[]): readonly ToldPlace[] =>
  stopPlaces(findings).map(({ place }) => place);

/** Whether something stands at a place that is about the same: at its beat, or with its notes at another of the bar. */
const standsFor = (place: ToldPlace, other: ToldPlace): boolean =>
  other.key === place.key || (other.bar === place.bar && `${other.notes}` === `${place.notes}`);

/** Null where no more can be played than before. */
export const solvedPlaces = (
  before: readonly ToldFinding[],
  after: readonly ToldFinding[],
): Solved | null => {
  const [had, has] = [stopsOf(before), stopsOf(after)];
  const solved = had.filter((place) => !has.some((other) => standsFor(place, other)));
  if (solved.length === 0 && has.length >= had.length) return null;
  const open = new Set(has.map(({ bar }) => bar));
  const bars = [...new Set(solved.map(({ bar }) => bar))].filter((bar) => !open.has(bar));
  const places = solved
    .filter(({ bar }) => open.has(bar))
    .map(({ key, bar, beat }) => [key, { bar, beat }] as const);
  return { bars, places: [...new Map(places).values()], left: has.length };
};
