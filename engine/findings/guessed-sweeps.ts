import { formatSetting } from '../harp/setting.ts';
import type { Score } from '../score/model.ts';
import type { SweepSetting } from '../sounding/sweep-setting.ts';
import type { Told } from './describe-finding.ts';

/**
 * What to tell of glissandi whose setting had to be guessed: once for those that follow each other, or sound together, over
 * the same strings.
 *
 * @param what `setting` for pedals, `notes` for levers: what the score should have stated
 */
export const guessedSweeps = (
  score: Score,
  sweeps: readonly SweepSetting[],
  leftOut: ReadonlySet<string>,
  what: 'setting' | 'notes',
): readonly Told<'glissando-setting-guessed'>[] =>
  runsOf(sweeps.filter(({ from }) => !leftOut.has(from.id))).map((run) => {
    const { setting, guessed, sweep } = run[0]!;
    const { bar } = run.at(-1)!.sweep;
    const to = bar === sweep.bar ? '' : ` from here to bar ${score.bars[bar]!.number}`;
    const [whose, of] =
      run.length === 1
        ? [`The glissando’s ${what}`, 'the glissando']
        : [`The ${what} of ${run.length} glissandi${to}`, 'these glissandi'];
    return {
      code: 'glissando-setting-guessed',
      severity: 'note',
      notes: run.map(({ from }) => from),
      sentence: `${whose} ${what === 'setting' ? 'is' : 'are'} not fully stated; ${formatSetting(setting)} takes ${guessed.join(' ')} from the key signature.`,
      suggestions: [`State the ${what} of ${of} in the score.`],
    };
  });

/** Guessed glissandi in order, those over the same strings together. */
const runsOf = (sweeps: readonly SweepSetting[]): readonly (readonly SweepSetting[])[] => {
  const runs: SweepSetting[][] = [];
  let last = '';
  for (const sweep of sweeps) {
    const key =
      sweep.guessed.length === 0 ? '' : `${formatSetting(sweep.setting)} ${sweep.guessed.join(' ')}`;
    if (key !== '' && key === last) runs.at(-1)!.push(sweep);
    else if (key !== '') runs.push([sweep]);
    last = key;
  }
  return runs;
};
