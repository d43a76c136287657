import type { DivideChoice } from '../../../api/answers/division.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';

/** Whether a part is to be divided and both players' parts are wanted. */
export const isForTwo = ({ divide, player }: Pick<AnnotateChoice, 'divide' | 'player'>): boolean =>
  divide !== undefined && divide !== 'no' && (player ?? 'all') === 'all';

/** What was chosen for a part that is to be divided, the aim with it. */
export const forTwo = (choice: DivideChoice): DivideChoice & { readonly divide: 'balanced' | 'least' } => ({
  ...choice,
  divide: choice.divide === 'least' ? 'least' : 'balanced',
});
