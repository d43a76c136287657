import { formatSetting } from '../harp/setting.ts';
import { mapNonEmpty, type NonEmpty } from '../non-empty.ts';
import type { Score } from '../score/model/score.ts';
import type { SweepSetting } from '../sounding/glissando-settings.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { describeFinding } from './describe-finding.ts';
import { help } from './help/help.ts';
import type { Finding } from './model.ts';

/**
 * What to tell of glissandi whose setting had to be guessed: once for those that follow each other, or sound together, over
 * the same strings.
 *
 * @param what `setting` for pedals, `notes` for levers: what the score should have stated
 */
export const draftGuessedGlissandi = (
  score: Score,
  sweeps: readonly SweepSetting[],
  omitted: ReadonlySet<string>,
  what: 'setting' | 'notes',
): Finding<'glissando-setting-guessed'>[] =>
  runsOf(sweeps.filter(({ from }) => !omitted.has(from.id))).map((run) => {
    const [{ setting, guessed, sweep }] = run;
    const { bar } = run.at(-1)!.sweep;
    const untilBar = bar === sweep.bar ? null : nameBarIn(score)(bar);
    return describeFinding(
      score,
      'glissando-setting-guessed',
      { letters: guessed, setting, glissandi: run.length, untilBar },
      {
        notes: mapNonEmpty(run, ({ from }) => from),
        help: [help('state-glissando', { what, glissandi: run.length })],
      },
    );
  });

/** Guessed glissandi in order, those over the same strings together. */
const runsOf = (sweeps: readonly SweepSetting[]): readonly NonEmpty<SweepSetting>[] => {
  const runs: [SweepSetting, ...SweepSetting[]][] = [];
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
