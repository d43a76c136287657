import { STRINGS } from '../../strings/strings.ts';
import { useAnswer } from '../controls/asked-answer.ts';
import { AskedSection } from '../controls/asked-section.tsx';
import { SaveButtons, type TakenFile } from '../downloads/file-buttons.tsx';
import { useNaming } from '../downloads/naming.ts';
import { saveAnswer, ZIP } from '../downloads/taken-files.ts';
import { fetchFile, type Order } from '../service/annotate-request.ts';
import { fetchDivision } from '../service/report-request.ts';

const words = STRINGS.secondHarp;

/** Where fixes that need a second harp lead to. */
export const SECOND_HARP = 'second-harp';

/**
 * What a second harp must play at the least for the part to be playable, asked for on request; each bar can be gone to, and
 * both parts can be downloaded.
 */
export const SecondHarp = ({
  order,
  onGo,
}: {
  readonly order: Order;
  /** A bar is gone to: its index. */
  readonly onGo: (bar: number) => void;
}) => {
  const [asked, ask] = useAnswer((signal) => fetchDivision(order, 'least', signal), { kind: 'no' });
  const naming = useNaming();
  const files: readonly TakenFile[] = [
    {
      what: words.parts,
      ready: true,
      save: async (signal) =>
        saveAnswer(
          await fetchFile({ ...order, forTwo: 'least' }, ZIP, signal),
          naming.ofPart(STRINGS.take.names.withSecondHarp),
        ),
    },
  ];
  return (
    <div id={SECOND_HARP}>
      <AskedSection name="second-harp" words={words} asked={asked} onAsk={ask}>
        {({ least, players, proved }) => (
          <>
            <p>{least.sentence}</p>
            {least.barNames.length > 0 && (
              <p class="bars">
                {least.barNames.map((bar, i) => (
                  <button
                    key={least.barIndices[i]}
                    type="button"
                    class="small"
                    onClick={() => onGo(least.barIndices[i]!)}
                  >
                    {words.bar(bar)}
                  </button>
                ))}
              </p>
            )}
            <ul>
              {players.map(({ notes, plan }, i) => (
                <li key={i}>{words.player(i, notes.length, plan.moves.length, plan.summary.playable)}</li>
              ))}
            </ul>
            {!proved && <p class="aside">{words.unproved}</p>}
            <SaveButtons files={files} />
          </>
        )}
      </AskedSection>
    </div>
  );
};
