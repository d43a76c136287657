import { useState } from 'preact/hooks';
import { STRINGS } from '../../../strings/strings.ts';
import { SelectList } from '../../controls/select-list.tsx';
import type { ReadPart } from '../../planner/planned-part.ts';
import type { DecisionActions } from '../decision-actions.ts';

const words = STRINGS.decisions.forms;

/** Chooses which part is cued before the harp comes in after a rest, or that none is; nothing where there is no choice. */
export const CueForm = ({
  part: { bars, entries, others },
  actions,
}: {
  readonly part: Pick<ReadPart, 'bars' | 'entries' | 'others'>;
  readonly actions: Pick<DecisionActions, 'decide'>;
}) => {
  const [index, setIndex] = useState(0);
  const [part, setPart] = useState(others[0]?.id ?? '');
  const entry = entries[index];
  if (entry === undefined || others.length === 0) return null;
  const { barIndex, beat } = entry;
  const decide = (cued: string | null): void =>
    actions.decide({ kind: 'cue', cue: { barIndex, beat, part: cued } });
  return (
    <fieldset>
      <legend>{words.cue}</legend>
      <span class="place-fields">
        <SelectList
          label={words.entry}
          value={index}
          values={[...entries.keys()]}
          tell={(i) => {
            const { barIndex: bar, rest } = entries[i]!;
            return words.entryAt(bars[bar]!.name || `(${bar + 1})`, rest);
          }}
          onChange={setIndex}
        />
        <SelectList
          label={words.cuedPart}
          value={part}
          values={others.map(({ id }) => id)}
          tell={(id) => others.find((other) => other.id === id)!.name || id}
          onChange={setPart}
        />
      </span>
      <div class="buttons">
        <button type="button" class="small" onClick={() => decide(part)}>
          {words.showCue}
        </button>
        <button type="button" class="small" onClick={() => decide(null)}>
          {words.noCue}
        </button>
      </div>
    </fieldset>
  );
};
