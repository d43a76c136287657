import type { Problem } from '../engine/index.ts';
import type { Refusal } from '../render/index.ts';
import type { AnyProblem, AnyProblemCode } from './service-problem.ts';

/** What the engine refuses of a piece, and the limits of the service, for those who read the sheets of a set. */
const REFUSALS = {
  'empty-input': 'unreadable',
  'not-a-score': 'unreadable',
  'malformed-xml': 'unreadable',
  'unknown-encoding': 'unreadable',
  'bad-characters': 'unreadable',
  'bad-value': 'unreadable',
  'bad-tune': 'unreadable',
  'entity-refused': 'unreadable',
  'archive-corrupt': 'unreadable',
  'archive-without-score': 'unreadable',
  unsupported: 'unsupported',
  'no-parts': 'noMusic',
  'no-notes': 'noMusic',
  'no-music': 'noMusic',
  'harp-not-found': 'noHarp',
  'unknown-part': 'noHarp',
  'choose-tune': 'noSuchTune',
  'unknown-tune': 'noSuchTune',
  'unknown-movement': 'noSuchTune',
  'layout-failed': 'notDrawn',
  'limit-exceeded': 'tooLarge',
  'payload-too-large': 'tooLarge',
  'timed-out': 'tooSlow',
  'job-timed-out': 'tooSlow',
} as const satisfies { readonly [Code in AnyProblemCode]?: Refusal } & {
  readonly [Code in Problem['code']]: Refusal;
};

/** Why a piece that has a problem is not in a set; whatever is not its own fault keeps it from being drawn. */
export const refusalOf = ({ code }: AnyProblem): Refusal =>
  code in REFUSALS ? REFUSALS[code as keyof typeof REFUSALS] : 'notDrawn';
