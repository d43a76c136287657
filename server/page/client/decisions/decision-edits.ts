import {
  type DecisionPin,
  type Decisions,
  type DelayDecision,
  type Letter,
  type LeverDecisionPin,
  type Move,
  type NotesAt,
  nameOfPosition,
  type PedalDecisionPin,
  type Place,
  type Position,
  rationalKey,
  type TempoDecision,
} from '../../../../engine/index.ts';

/** One thing that the user decided. */
export type Decision =
  | { readonly kind: 'pin'; readonly pin: DecisionPin }
  | { readonly kind: 'respell'; readonly notes: NotesAt & { readonly to: string } }
  | { readonly kind: 'omit'; readonly notes: NotesAt }
  | { readonly kind: 'delay'; readonly notes: DelayDecision }
  | { readonly kind: 'setting'; readonly setting: Place & { readonly print: boolean } }
  | { readonly kind: 'cue'; readonly cue: Place & { readonly part: string | null } }
  | { readonly kind: 'tempo'; readonly tempo: TempoDecision };

export type MovePin = Extract<DecisionPin, { kind: 'move' }>;

const keyOf = (value: unknown): string =>
  JSON.stringify(value, (_key, each: unknown) =>
    typeof each === 'object' && each !== null && !Array.isArray(each)
      ? Object.fromEntries(Object.entries(each).sort(([a], [b]) => (a < b ? -1 : 1)))
      : each,
  );

/** A string that is equal for equal decisions. */
export const decisionKey = (decision: Decision): string => keyOf(decision);

const isSamePlace = (a: Place, b: Place): boolean => a.barIndex === b.barIndex && a.beat === b.beat;

/** A decision about both hands is also one about each, and one about all grace notes about each of them. */
const areSameNotes = (a: NotesAt, b: NotesAt): boolean =>
  isSamePlace(a, b) && a.pitch === b.pitch && agree(a.staff, b.staff) && agree(a.grace, b.grace);

const agree = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined || a === b;

/** Whether two pins cannot both hold, since they fix the same thing. */
const isSamePin = (a: DecisionPin, b: DecisionPin): boolean => {
  if (a.kind === 'forbid' || b.kind === 'forbid') return keyOf(a) === keyOf(b);
  return subjectOf(a) === subjectOf(b) && isSamePlace(startOf(a), startOf(b));
};

/** The pedal that a pin is about, or the string whose lever it is. */
const subjectOf = (pin: PedalDecisionPin | LeverDecisionPin): string =>
  'pedal' in pin ? pin.pedal : pin.lever;

const startOf = (pin: DecisionPin): Place =>
  pin.kind === 'move' || pin.kind === 'lever-move' ? pin.at : pin.from;

const isSamePassage = (a: TempoDecision, b: TempoDecision): boolean =>
  keyOf([a.from, a.until]) === keyOf([b.from, b.until]);

/** Adds a decision; what it contradicts at the same place is replaced. */
export const addDecision = (decisions: Decisions, decision: Decision): Decisions => {
  switch (decision.kind) {
    case 'pin':
      return {
        ...decisions,
        pins: [...decisions.pins.filter((pin) => !isSamePin(pin, decision.pin)), decision.pin],
      };
    case 'setting': {
      const others = decisions.fullSettings.filter((each) => !isSamePlace(each, decision.setting));
      return { ...decisions, fullSettings: [...others, decision.setting] };
    }
    case 'cue': {
      const others = decisions.cueParts.filter((each) => !isSamePlace(each, decision.cue));
      return { ...decisions, cueParts: [...others, decision.cue] };
    }
    case 'tempo': {
      const others = decisions.tempos.filter((each) => !isSamePassage(each, decision.tempo));
      return { ...decisions, tempos: [...others, decision.tempo] };
    }
    case 'delay': {
      const others = decisions.delays.filter((each) => !areSameNotes(each, decision.notes));
      return { ...decisions, delays: [...others, decision.notes] };
    }
    case 'respell':
    case 'omit': {
      const { notes } = decision;
      const respell = decisions.respell.filter((each) => !areSameNotes(each, notes));
      const omit = decisions.omit.filter((each) => !areSameNotes(each, notes));
      return decision.kind === 'respell'
        ? { ...decisions, respell: [...respell, decision.notes], omit }
        : { ...decisions, respell, omit: [...omit, notes] };
    }
  }
};

export const addDecisions = (decisions: Decisions, added: readonly Decision[]): Decisions =>
  added.reduce(addDecision, decisions);

/** Takes a decision back; where it was not made nothing changes. */
export const dropDecision = (decisions: Decisions, decision: Decision): Decisions => {
  const others = <T>(list: readonly T[], each: T): T[] => list.filter((one) => keyOf(one) !== keyOf(each));
  switch (decision.kind) {
    case 'pin':
      return { ...decisions, pins: others(decisions.pins, decision.pin) };
    case 'respell':
      return { ...decisions, respell: others(decisions.respell, decision.notes) };
    case 'omit':
      return { ...decisions, omit: others(decisions.omit, decision.notes) };
    case 'delay':
      return { ...decisions, delays: others(decisions.delays, decision.notes) };
    case 'setting':
      return { ...decisions, fullSettings: others(decisions.fullSettings, decision.setting) };
    case 'cue':
      return { ...decisions, cueParts: others(decisions.cueParts, decision.cue) };
    case 'tempo':
      return { ...decisions, tempos: others(decisions.tempos, decision.tempo) };
  }
};

export const dropDecisions = (decisions: Decisions, dropped: readonly Decision[]): Decisions =>
  dropped.reduce(dropDecision, decisions);

/** Whether each of some decisions is among those made. */
export const areDecided = (decisions: Decisions, some: readonly Decision[]): boolean => {
  const made = new Set(listDecisions(decisions).map(decisionKey));
  return some.every((each) => made.has(decisionKey(each)));
};

/** Where a decision begins. */
export const placeOf = (decision: Decision): Place => {
  switch (decision.kind) {
    case 'pin':
      return startOf(decision.pin);
    case 'setting':
      return decision.setting;
    case 'cue':
      return decision.cue;
    case 'tempo':
      return decision.tempo.from;
    case 'respell':
    case 'omit':
    case 'delay':
      return decision.notes;
  }
};

const beatNumber = (beat: string): number => {
  const [num, den = '1'] = beat.split('/');
  return Number(num) / Number(den);
};

/** All that was decided, in order of place. */
export const listDecisions = (decisions: Decisions): readonly Decision[] =>
  [
    ...decisions.pins.map((pin): Decision => ({ kind: 'pin', pin })),
    ...decisions.respell.map((notes): Decision => ({ kind: 'respell', notes })),
    ...decisions.omit.map((notes): Decision => ({ kind: 'omit', notes })),
    ...decisions.delays.map((notes): Decision => ({ kind: 'delay', notes })),
    ...decisions.fullSettings.map((setting): Decision => ({ kind: 'setting', setting })),
    ...decisions.cueParts.map((cue): Decision => ({ kind: 'cue', cue })),
    ...decisions.tempos.map((tempo): Decision => ({ kind: 'tempo', tempo })),
  ]
    .map((decision) => ({ decision, place: placeOf(decision) }))
    .sort(
      (a, b) => a.place.barIndex - b.place.barIndex || beatNumber(a.place.beat) - beatNumber(b.place.beat),
    )
    .map(({ decision }) => decision);

/** What a pin of a move fixes: this pedal into this position. */
export const pinTo = (pedal: Letter, position: Position, at: Place): MovePin => ({
  kind: 'move',
  pedal,
  position: nameOfPosition(position),
  at: { barIndex: at.barIndex, beat: at.beat },
});

/** The pin that holds a move where it is; null where none does. */
export const pinOfMove = (decisions: Decisions, move: Move): MovePin | null => {
  const wanted = pinTo(move.letter, move.to, { barIndex: move.bar, beat: rationalKey(move.beat) });
  const found = decisions.pins.find((pin) => pin.kind === 'move' && keyOf(pin) === keyOf(wanted));
  return found?.kind === 'move' ? found : null;
};

/** Has a move made at another place: its pin, if it has one, goes with it. */
export const moveTo = (decisions: Decisions, move: Move, at: Place): Decisions => {
  const old = pinOfMove(decisions, move);
  const freed = old === null ? decisions : dropDecision(decisions, { kind: 'pin', pin: old });
  return addDecision(freed, { kind: 'pin', pin: pinTo(move.letter, move.to, at) });
};
