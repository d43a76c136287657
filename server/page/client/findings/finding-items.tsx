import { rollup } from 'd3-array';
import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { type Extent, orderForPeople, SEVERITIES, type Severity } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { MusicWords } from '../controls/music-words.tsx';
import { isNarrow } from '../controls/narrow.ts';
import { StepButton } from '../controls/step-button.tsx';
import { gatherAlike } from './like-findings.ts';

const words = STRINGS.findings;

/** A finding as it is listed, whatever the harp. */
export interface ListedFinding {
  readonly severity: Severity;
  /** What kind it is, in words. */
  readonly kind: string;
  readonly extent: Extent;
  readonly sentence: string;
  /** The same in findings that are told as one where there are several. */
  readonly alike: string;
}

export interface FindingItemsProps {
  /** In the order of the data. */
  readonly findings: readonly ListedFinding[];
  /** Index of the one that is looked at. */
  readonly chosen: number | null;
  readonly onChoose: (finding: number) => void;
  /** What stands under one: its fixes. */
  readonly below: (finding: number) => ComponentChildren;
  /** What stands under several that are told as one: what can be done at all their places. */
  readonly belowAlike?: ((findings: readonly number[]) => ComponentChildren) | undefined;
}

/** By what findings can be listed alone: how many there are of each, and which is chosen. */
interface FilterProps<Of extends string> {
  readonly counts: ReadonlyMap<Of, number>;
  readonly only: Of | null;
  readonly onOnly: (only: Of | null) => void;
}

/** How many there are of each severity; pressed, only those are listed. */
const SeverityFilter = ({ counts, only, onOnly }: FilterProps<Severity>) => (
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

/** The kinds that there are, each with how many; those of one kind are listed alone where it is chosen. */
const KindFilter = ({ counts, only, onOnly }: FilterProps<string>) => (
  <select
    name="kind"
    aria-label={words.kinds}
    value={only ?? ''}
    onChange={({ currentTarget }) => onOnly(currentTarget.value || null)}
  >
    <option value="">{words.allKinds}</option>
    {[...counts].map(([kind, count]) => (
      <option key={kind} value={kind}>
        {words.kind(kind, count)}
      </option>
    ))}
  </select>
);

const countBy = <T, Key extends string>(
  items: readonly T[],
  keyOf: (item: T) => Key,
): ReadonlyMap<Key, number> => rollup(items, (alike) => alike.length, keyOf);

/** Those that are asked for, the gravest first. */
const useFiltered = (findings: readonly ListedFinding[]) => {
  const [severity, setSeverity] = useState<Severity | null>(null);
  const [kind, setKind] = useState<string | null>(null);
  const ordered = useMemo(() => orderForPeople(findings), [findings]);
  const severities = useMemo(() => countBy(findings, ({ severity }) => severity), [findings]);
  // A new plan may have none left of those that were asked for.
  const ofSeverity = severity !== null && severities.has(severity) ? severity : null;
  const grave = ordered.filter(({ finding }) => ofSeverity === null || finding.severity === ofSeverity);
  const kinds = countBy(grave, ({ finding }) => finding.kind);
  const ofKind = kind !== null && kinds.has(kind) ? kind : null;
  const listed = grave.filter(({ finding }) => ofKind === null || finding.kind === ofKind);
  return { severities, ofSeverity, setSeverity, kinds, ofKind, setKind, listed };
};

type Listed = ReturnType<typeof useFiltered>['listed'][number];

type ItemProps = Pick<FindingItemsProps, 'chosen' | 'onChoose' | 'below'>;

const Item = ({
  listed: { finding, at },
  chosen,
  onChoose,
  below,
}: ItemProps & { readonly listed: Listed }) => (
  <li>
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
);

/** Several that are alike, to be unfolded: on a wide screen they are. One that is gone to is always in sight. */
const Alike = ({
  listed,
  belowAlike,
  ...item
}: ItemProps & Pick<FindingItemsProps, 'belowAlike'> & { readonly listed: readonly Listed[] }) => {
  const [isOpen, setOpen] = useState(() => !isNarrow());
  const { severity, kind } = listed[0]!.finding;
  const holdsChosen = listed.some(({ at }) => at === item.chosen);
  useEffect(() => {
    if (holdsChosen) setOpen(true);
  }, [item.chosen]);
  return (
    <li class="alike">
      <details open={isOpen} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary class={`finding ${severity}`}>
          <span class="severity">{words.count(severity, listed.length)}</span>
          <span class="sentence">
            {kind}: {words.barsOf(listed.map(({ finding }) => finding.extent))}
          </span>
        </summary>
        <ul>
          {listed.map((each) => (
            <Item key={each.at} {...item} listed={each} />
          ))}
        </ul>
      </details>
      {belowAlike?.(listed.map(({ at }) => at))}
    </li>
  );
};

/** Goes from one to the next, and filters. */
const ListTools = ({
  filtered: { severities, ofSeverity, setSeverity, kinds, ofKind, setKind, listed },
  chosen,
  onChoose,
}: Pick<FindingItemsProps, 'chosen' | 'onChoose'> & {
  readonly filtered: ReturnType<typeof useFiltered>;
}) => {
  const here = listed.findIndex(({ at }) => at === chosen);
  const step = (to: number) => () => onChoose(listed[to]!.at);
  return (
    <div class="buttons">
      {severities.size > 1 && <SeverityFilter counts={severities} only={ofSeverity} onOnly={setSeverity} />}
      <StepButton small label={words.previous} atEnd={here <= 0} onClick={step(here - 1)}>
        ‹
      </StepButton>
      <StepButton small label={words.next} atEnd={here === listed.length - 1} onClick={step(here + 1)}>
        ›
      </StepButton>
      {(kinds.size > 1 || ofKind !== null) && <KindFilter counts={kinds} only={ofKind} onOnly={setKind} />}
    </div>
  );
};

/** Findings, the gravest first: to be filtered, gone through one by one, and chosen; those that are alike as one. */
export const FindingItems = ({ findings, belowAlike, ...item }: FindingItemsProps) => {
  const filtered = useFiltered(findings);
  const gathered = gatherAlike(filtered.listed);
  return (
    <>
      {findings.length > 1 && <ListTools filtered={filtered} chosen={item.chosen} onChoose={item.onChoose} />}
      <ul>
        {gathered.map((alike) =>
          alike.length === 1 ? (
            <Item key={alike[0]!.at} {...item} listed={alike[0]!} />
          ) : (
            <Alike key={alike[0]!.finding.alike} {...item} {...{ belowAlike }} listed={alike} />
          ),
        )}
      </ul>
    </>
  );
};
