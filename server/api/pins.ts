import { z } from 'zod';
import { add, compare, multiply, type Rational, rational, subtract } from '../../engine/music/rational.ts';
import type { Pin } from '../../engine/plan/options.ts';
import type { Bar, Score } from '../../engine/score/model.ts';
import { decline, type Outcome } from '../service-problem.ts';
import { beat, letter, positionName, positionOf, scoreTime } from './score-values.ts';

const place = z
  .union([
    scoreTime,
    z.strictObject({
      bar: z.int().min(0).max(1_000_000).meta({ description: 'Index of the printed bar, the first is 0.' }),
      beat,
    }),
  ])
  .meta({
    id: 'Place',
    description: 'A score time, or a printed bar by its index (from 0) with a beat (from 1).',
  });

/** Something that the user fixes, as it is written in the JSON of a request. */
export const pin = z
  .discriminatedUnion('kind', [
    z
      .strictObject({
        kind: z.literal('position'),
        pedal: letter,
        position: positionName,
        from: place,
        until: place.nullable(),
      })
      .meta({ description: 'The pedal stands so from one place until just before another, or to the end.' }),
    z
      .strictObject({ kind: z.literal('move'), pedal: letter, position: positionName, at: place })
      .meta({ description: 'The pedal moves to this position exactly here.' }),
    z
      .strictObject({ kind: z.literal('forbid'), from: place, until: place })
      .meta({ description: 'No pedal moves in this span.' }),
  ])
  .meta({ id: 'Pin', description: 'Something about the plan that is fixed beforehand.' });

export type PinChoice = z.infer<typeof pin>;

type Place = z.infer<typeof place>;

/**
 * Finds the places of pins in a score.
 *
 * @returns the pins with score times, or `bad-option` where a bar or a beat is not there
 */
export const placePinChoices = (pins: readonly PinChoice[], score: Score): Outcome<readonly Pin[]> => {
  const placed: Pin[] = [];
  for (const [index, choice] of pins.entries()) {
    const outcome = placePin(choice, score, `pins.${index}`);
    if (!outcome.ok) return outcome;
    placed.push(outcome.value);
  }
  return { ok: true, value: placed };
};

const placePin = (choice: PinChoice, score: Score, option: string): Outcome<Pin> => {
  if (choice.kind === 'move') {
    const at = timeOf(choice.at, score, `${option}.at`);
    if (!at.ok) return at;
    const { pedal, position } = choice;
    return {
      ok: true,
      value: { kind: 'move', letter: pedal, position: positionOf(position), at: at.value },
    };
  }
  const from = timeOf(choice.from, score, `${option}.from`);
  if (!from.ok) return from;
  const end: Outcome<Rational | null> =
    choice.until === null ? { ok: true, value: null } : timeOf(choice.until, score, `${option}.until`);
  if (!end.ok) return end;
  const until = end.value;
  if (until !== null && compare(from.value, until) >= 0) {
    return bad(`${option}.until`, choice.until, 'it lies behind the place in “from”');
  }
  if (choice.kind === 'position') {
    const position = positionOf(choice.position);
    return {
      ok: true,
      value: { kind: 'position', letter: choice.pedal, position, from: from.value, until },
    };
  }
  return until === null
    ? bad(`${option}.until`, null, 'a place')
    : { ok: true, value: { kind: 'forbid', from: from.value, until } };
};

const bad = (option: string, value: unknown, expected: string) =>
  decline({ code: 'bad-option', option, value: JSON.stringify(value), expected });

/** Rests of a fraction: `7/2` as numbers. */
const readFraction = (text: string): Rational => {
  const [num, den] = text.split('/');
  return rational(Number(num), Number(den ?? 1));
};

const timeOf = (place: Place, score: Score, option: string): Outcome<Rational> => {
  if (typeof place === 'string') return { ok: true, value: readFraction(place) };
  const bar = score.bars[place.bar];
  if (bar === undefined) {
    return bad(option, place, `the score has the bars 0 to ${score.bars.length - 1}`);
  }
  const at = timeInBar(bar, readFraction(place.beat));
  return at === null ? bad(option, place, 'the beat lies within its bar, from 1') : { ok: true, value: at };
};

const timeInBar = (bar: Bar, beat: Rational): Rational | null => {
  const offset = multiply(subtract(beat, rational(1)), rational(4, bar.meter.beatUnit));
  const isInside = offset.num >= 0 && compare(offset, bar.duration) < 0;
  return isInside ? add(bar.onset, offset) : null;
};
