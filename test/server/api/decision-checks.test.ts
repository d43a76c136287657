import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { checkDecisions } from '../../../engine/decisions/check-decisions.ts';
import { decisionsShape } from '../../../server/api/requests/decisions.ts';
import { anyDecisions } from '../../engine/decisions/any-decisions.ts';
import { cases } from '../../thorough.ts';

const { savedDecisions: _, ...lists } = decisionsShape;
const REQUEST = z.strictObject(lists);

/** Whether a request may hold it; `null` where it names a place by a score time, as only a request may. */
const requestTakes = (value: unknown): boolean | null =>
  JSON.stringify(value).match(/"(at|from|until)":"/) ? null : REQUEST.safeParse(value).success;

type Json = Record<string, unknown> | unknown[];

const isJson = (value: unknown): value is Json => typeof value === 'object' && value !== null;

/** All records and lists within a value, itself the first. */
const within = (value: unknown): readonly Json[] =>
  isJson(value) ? [value, ...Object.values(value).flatMap(within)] : [];

const JUNK = [
  null,
  '',
  'x',
  -1,
  0,
  1.5,
  1e9,
  true,
  [],
  {},
  'flat',
  'C',
  '5/2',
  '1/0',
  'x'.repeat(41),
  Number.NaN,
];

/** The value with one member taken out, put in or replaced. */
const spoil = (decisions: unknown, where: number, which: number, how: number, junk: unknown): unknown => {
  const copy: unknown = structuredClone(decisions);
  const places = within(copy);
  const place = places[where % places.length]!;
  const names = Object.keys(place);
  const name = names[which % Math.max(1, names.length)];
  if (how === 0 || name === undefined) Object.assign(place, Array.isArray(place) ? [junk] : { extra: junk });
  else if (how === 1) Reflect.deleteProperty(place, name);
  else Reflect.set(place, name, junk);
  return copy;
};

describe('decisions in a request and in a file pass the same checks', () => {
  it('where they are as they should be', () => {
    fc.assert(
      fc.property(anyDecisions, (decisions) => {
        expect(checkDecisions(decisions).ok).toBe(true);
        expect(requestTakes(decisions)).toBe(true);
      }),
    );
  });

  it('and where something is missing, strange or wrong', () => {
    let refused = 0;
    fc.assert(
      fc.property(
        anyDecisions,
        fc.nat(),
        fc.nat(),
        fc.nat(2),
        fc.constantFrom<unknown>(...JUNK),
        (decisions, where, which, how, junk) => {
          const spoilt = spoil(decisions, where, which, how, junk);
          const taken = requestTakes(spoilt);
          if (taken === null) return;
          if (!taken) refused += 1;
          expect(checkDecisions(spoilt).ok).toBe(taken);
        },
      ),
      { numRuns: cases(3000) },
    );
    expect(refused).toBeGreaterThan(cases(1000));
  });
});
