import type { ComponentChildren } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { type Extent, orderForPeople, SEVERITIES, type Severity } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { MusicWords } from '../controls/music-words.tsx';
import { StepButton } from '../controls/step-button.tsx';

const words = STRINGS.findings;

/** A finding as it is listed, whatever the harp. */
export interface ListedFinding {
  readonly severity: Severity;
  readonly extent: Extent;
  readonly sentence: string;
}

export interface FindingItemsProps {
  /** In the order of the data. */
  readonly findings: readonly ListedFinding[];
  /** Index of the one that is looked at. */
  readonly chosen: number | null;
  readonly onChoose: (finding: number) => void;
  /** What stands under one: its fixes. */
  readonly below: (finding: number) => ComponentChildren;
}

/** How many there are of each severity; pressed, only those are listed. */
const Filter = ({
  counts,
  only,
  onOnly,
}: {
  readonly counts: ReadonlyMap<Severity, number>;
  readonly only: Severity | null;
  readonly onOnly: (only: Severity | null) => void;
}) => (
  <>
    {SEVERITIES.filter((severity) => counts.has(severity)).map((severity) => (
      <button
        key={severity}
        type="button"
        class={`small ${severity}`}
        aria-pressed={only === severity}
        onClick={() => onOnly(only === severity ? null : severity)}
      >
        {words.count(severity, counts.get(severity)!)}
      </button>
    ))}
  </>
);

/** Findings, the gravest first: to be filtered, gone through one by one, and chosen. */
export const FindingItems = ({ findings, chosen, onChoose, below }: FindingItemsProps) => {
  const [only, setOnly] = useState<Severity | null>(null);
  const ordered = useMemo(() => orderForPeople(findings), [findings]);
  const counts = useMemo(
    () =>
      new Map(
        SEVERITIES.flatMap((severity) => {
          const count = findings.filter((each) => each.severity === severity).length;
          return count === 0 ? [] : [[severity, count] as const];
        }),
      ),
    [findings],
  );
  // A new plan may have none left of those that were asked for.
  const isFiltered = only !== null && counts.has(only);
  const listed = isFiltered ? ordered.filter(({ finding }) => finding.severity === only) : ordered;
  const here = listed.findIndex(({ at }) => at === chosen);
  const step = (to: number) => () => onChoose(listed[to]!.at);
  return (
    <>
      {findings.length > 1 && (
        <div class="buttons">
          {counts.size > 1 && <Filter counts={counts} only={isFiltered ? only : null} onOnly={setOnly} />}
          <StepButton small label={words.previous} atEnd={here <= 0} onClick={step(here - 1)}>
            ‹
          </StepButton>
          <StepButton small label={words.next} atEnd={here === listed.length - 1} onClick={step(here + 1)}>
            ›
          </StepButton>
        </div>
      )}
      <ul>
        {listed.map(({ finding, at }) => (
          <li key={at}>
            <button
              type="button"
              class={`finding ${finding.severity}`}
              aria-pressed={chosen === at}
              onClick={() => onChoose(at)}
            >
              <span class="severity">{words.severity(finding.severity)}</span>
              <span class="place">{words.at(finding.extent)}</span>
              <span class="sentence">
                <MusicWords>{finding.sentence}</MusicWords>
              </span>
            </button>
            {below(at)}
          </li>
        ))}
      </ul>
    </>
  );
};
