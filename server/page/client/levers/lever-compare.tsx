import { useEffect, useState } from 'preact/hooks';
import type { CompareReport } from '../../../api/answers/comparison.ts';
import { LEVER_STRINGS } from '../../lever-strings.ts';
import { useKeptFocus } from '../controls/kept-focus.ts';
import { StepButton } from '../controls/step-button.tsx';
import { TableHead } from '../controls/table-head.tsx';
import type { ScoreFile } from '../service/annotate-request.ts';
import { fetchComparison } from './lever-request.ts';

const words = LEVER_STRINGS.compare;

type Asked =
  | { readonly kind: 'no' | 'asking' }
  | { readonly kind: 'ready'; readonly report: CompareReport }
  | { readonly kind: 'failed'; readonly sentence: string };

const Rows = ({ name, pedal, lever }: Pick<CompareReport, 'pedal' | 'lever'> & { readonly name: string }) => (
  <>
    {[pedal, lever].map((verdict) => (
      <tr key={verdict.harp}>
        <th scope="row">{name}</th>
        <td>{verdict.harp}</td>
        <td>{words.playable(verdict.stops)}</td>
        <td>{verdict.changes}</td>
        <td>{'tuning' in verdict ? lever.tuning : ''}</td>
      </tr>
    ))}
  </>
);

/** How the part goes on both harps, asked for on request: it plans several keys. */
export const LeverCompare = ({ file }: { readonly file: ScoreFile }) => {
  const [asked, setAsked] = useState<Asked>({ kind: 'no' });
  const section = useKeptFocus();
  useEffect(() => {
    if (asked.kind !== 'asking') return;
    const leaving = new AbortController();
    void fetchComparison(file, leaving.signal).then(
      (answer) =>
        setAsked(
          answer.ok ? { kind: 'ready', report: answer.value } : { kind: 'failed', sentence: answer.sentence },
        ),
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [asked.kind === 'asking']);
  return (
    <section ref={section} class="compare">
      <h2 tabIndex={-1}>{words.heading}</h2>
      {asked.kind === 'ready' ? (
        <>
          <div class="table-pane">
            <table>
              <TableHead columns={words.columns} />
              <tbody>
                <Rows name={words.asWritten} pedal={asked.report.pedal} lever={asked.report.lever} />
                {asked.report.transpositions.map(({ semitones, pedal, lever }) => (
                  <Rows key={semitones} name={words.key(semitones)} pedal={pedal} lever={lever} />
                ))}
              </tbody>
            </table>
          </div>
          {asked.report.transpositions.length === 0 && <p>{words.noKey}</p>}
        </>
      ) : (
        <StepButton atEnd={asked.kind === 'asking'} onClick={() => setAsked({ kind: 'asking' })}>
          {words.ask}
        </StepButton>
      )}
      <p role="status">
        {asked.kind === 'asking' ? words.asking : asked.kind === 'failed' ? asked.sentence : ''}
      </p>
    </section>
  );
};
