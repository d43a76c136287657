import { useState } from 'preact/hooks';
import type { ProofReport } from '../../../api/answers/proof-report.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useKeptFocus } from '../controls/kept-focus.ts';
import { quartersOfPlace } from '../decisions/places.ts';
import { type NameDownload, useNaming } from '../downloads/naming.ts';
import { PDF, saveAnswer } from '../downloads/taken-files.ts';
import { FindingItems } from '../findings/finding-items.tsx';
import { FixList, listSuggestions } from '../findings/fixes/fix-list.tsx';
import type { Choices } from '../options/choices.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Spot } from '../selection/spot.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { AskedProof } from './asked-proof.ts';
import { MarkButton } from './mark-button.tsx';
import { fetchProofPages, fetchRepaired } from './proof-request.ts';
import { toggleEdit } from './taken-edits.ts';

const words = STRINGS.proof;

interface FileProofProps {
  readonly file: ScoreFile;
  readonly choices: Choices;
  readonly part: ReadPart;
  readonly proof: AskedProof;
  readonly onSelect: (spot: Spot) => void;
}

/** What goes wrong by the markings that the file brings, and the file with them corrected. */
export const FileProof = ({ file, choices, part, proof: { asked, askAgain }, onSelect }: FileProofProps) => {
  const section = useKeptFocus();
  return (
    <section ref={section} class="findings proof">
      <h2 tabIndex={-1}>{words.heading}</h2>
      {asked.kind === 'asking' && <p role="status">{words.asking}</p>}
      {asked.kind === 'failed' && (
        <>
          <p role="status">{asked.sentence}</p>
          <button type="button" onClick={askAgain}>
            {STRINGS.score.again}
          </button>
        </>
      )}
      {asked.kind === 'ready' && (
        <>
          <p role="status">
            {words.told(asked.answer.markings, asked.answer.correct, asked.answer.repair.edits.length)}
          </p>
          <Findings report={asked.answer} part={part} onSelect={onSelect} />
          <Repair report={asked.answer} {...{ file, choices }} />
        </>
      )}
      <MarkButton {...{ file, choices }} />
    </section>
  );
};

const Findings = ({
  report: { findings },
  part,
  onSelect,
}: Pick<FileProofProps, 'part' | 'onSelect'> & { readonly report: ProofReport }) => {
  const [chosen, setChosen] = useState<number | null>(null);
  const choose = (at: number): void => {
    const { barIndex, beat } = findings[at]!;
    setChosen(at);
    onSelect({ kind: 'place', bar: barIndex, quarters: quartersOfPlace(part, { barIndex, beat }) });
  };
  return (
    <FindingItems
      findings={findings.map(({ code, severity, sentence, barName, untilName, beat, places, notes }) => ({
        severity,
        kind: STRINGS.findings.title(code),
        sentence,
        alike: `${severity} ${code}`,
        extent: { from: barName, until: untilName, beat, places: places.length, notes: notes.length },
      }))}
      chosen={chosen}
      onChoose={choose}
      below={(at) => <FixList items={listSuggestions(findings[at]!.suggestions)} />}
    />
  );
};

interface TakenProps {
  readonly repair: ProofReport['repair'];
  /** Indices of the edits that are to be made. */
  readonly taken: readonly number[];
  readonly onTake: (taken: readonly number[]) => void;
}

/** One that is taken alone brings those along that it depends on. */
const Edits = ({ repair: { edits, proven, faultsLeft }, taken, onTake }: TakenProps) => (
  <fieldset class="edits">
    <legend>{words.edits(edits.length, proven, faultsLeft)}</legend>
    {edits.map(({ sentence }, index) => (
      <label key={index}>
        <input
          type="checkbox"
          checked={taken.includes(index)}
          onChange={() => onTake(toggleEdit(edits, taken, index))}
        />
        <span>{sentence}</span>
      </label>
    ))}
    {faultsLeft > 0 && <p>{words.left(faultsLeft)}</p>}
  </fieldset>
);

const RepairButtons = ({
  repair: { edits },
  taken,
  onTake,
  onSave,
}: TakenProps & { readonly onSave: () => void }) => (
  <>
    <button type="button" disabled={taken.length === 0} onClick={onSave}>
      {words.repair(taken.length, edits.length)}
    </button>
    <button
      type="button"
      class="small"
      onClick={() => onTake(taken.length === edits.length ? [] : edits.map((_, index) => index))}
    >
      {taken.length === edits.length ? words.none : words.all}
    </button>
  </>
);

/** The edits, all taken at first, and the file or a report with them. */
const Repair = ({
  report: { repair },
  file,
  choices,
}: Pick<FileProofProps, 'file' | 'choices'> & { readonly report: ProofReport }) => {
  const [taken, setTaken] = useState<readonly number[]>(() => repair.edits.map((_, index) => index));
  const [told, setTold] = useState('');
  const naming = useNaming();
  const isFixable = repair.edits.length > 0;
  const save = async (
    what: string,
    name: NameDownload,
    fetched: ReturnType<typeof fetchRepaired>,
  ): Promise<void> => {
    setTold(STRINGS.take.preparing(what));
    const wrong = saveAnswer(await fetched, name);
    setTold(wrong === null ? STRINGS.take.done(what) : STRINGS.take.failed(what, wrong));
  };
  return (
    <>
      {isFixable && <Edits {...{ repair, taken }} onTake={setTaken} />}
      <div class="buttons">
        {isFixable && (
          <RepairButtons
            {...{ repair, taken }}
            onTake={setTaken}
            onSave={() =>
              void save(
                words.repaired,
                naming.ofPart(STRINGS.take.names.corrected),
                fetchRepaired(file, taken),
              )
            }
          />
        )}
        <button
          type="button"
          onClick={() =>
            void save(
              words.pages,
              naming.ofPart(STRINGS.take.names.proof),
              fetchProofPages(file, choices, PDF),
            )
          }
        >
          {words.pages}
        </button>
      </div>
      <p role="status">{told}</p>
    </>
  );
};
