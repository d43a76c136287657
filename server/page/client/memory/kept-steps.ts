import { checkDecisions } from '../../../../engine/index.ts';
import { beginHistory, type DecisionHistory, type Step } from '../decisions/history/decision-history.ts';
import { type Memory, putOnShelf, takeFromShelf } from './shelf.ts';

const SHELF = 'tringle steps';

/** Of each direction: each holds all decisions, and a window keeps no more than some megabytes. */
const MOST_STEPS = 60;

const readStep = (found: unknown): readonly Step[] => {
  if (typeof found !== 'object' || found === null) return [];
  const name: unknown = Reflect.get(found, 'name');
  const checked = checkDecisions(Reflect.get(found, 'decisions'));
  return typeof name === 'string' && checked.ok ? [{ name, decisions: checked.decisions }] : [];
};

/** Steps as they were kept; none where one of them cannot be read: those beyond it would lead elsewhere than they say. */
const readSteps = (found: unknown): readonly Step[] => {
  if (!Array.isArray(found)) return [];
  const steps = found.flatMap(readStep);
  return steps.length === found.length ? steps : [];
};

/** Keeps the steps that led to the decisions on a piece, and those that were taken back, the nearest of them. */
export const keepSteps = (memory: Memory, key: string, { past, present, future }: DecisionHistory): boolean =>
  putOnShelf(memory, SHELF, key, {
    past: past.slice(-MOST_STEPS),
    present,
    future: future.slice(0, MOST_STEPS),
  });

/** The steps kept of a piece, with the decisions between them; null where there are none. */
export const recallSteps = (memory: Memory, key: string): DecisionHistory | null => {
  const found = takeFromShelf(memory, SHELF, key);
  if (typeof found !== 'object' || found === null) return null;
  const checked = checkDecisions(Reflect.get(found, 'present'));
  return checked.ok
    ? {
        ...beginHistory(checked.decisions),
        past: readSteps(Reflect.get(found, 'past')),
        future: readSteps(Reflect.get(found, 'future')),
      }
    : null;
};
