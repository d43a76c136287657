import { fail, type Outcome } from '../../service-problem.ts';
import type { AnnotateChoice } from './options.ts';

/** @returns `bad-option` for what cannot be bound into a class set */
export const checkClassSet = ({ allHarps, edition }: AnnotateChoice): Outcome<null> => {
  if (allHarps === true) return refuse('allHarps', 'true', 'false: a class set has one part of each score');
  if (edition === 'card') return refuse('edition', edition, 'part or study: cards have a size of their own');
  return { ok: true, value: null };
};

const refuse = (option: string, value: string, expected: string) =>
  fail({ code: 'bad-option', option, value, expected });
