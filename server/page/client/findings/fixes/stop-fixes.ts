import {
  comesFirst,
  type Decisions,
  fixLists,
  midiOf,
  NO_DECISIONS,
  NOTHING_HEARD,
  type NoteChange,
  type NoteFix,
  type NotesAt,
  type PedalFinding,
} from '../../../../../engine/index.ts';
import type { FixesReport, ReportedFix } from '../../../../api/answers/fixes.ts';
import { reportChange, reportRespelled } from '../../../../reports/report-notes.ts';
import { addDecisions, type Decision, decisionKey } from '../../decisions/decision-edits.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { decisionsOf } from './fix-decisions.ts';

export type StopPlace = FixesReport['places'][number];
/** What is told of a fix in the list of a place, or of a passage. */
export type StopFix = ReportedFix;
type PlaceFix = StopPlace['fixes'][number];

type Part = Pick<PlannedPart, 'notes'> & { readonly plan: Pick<PlannedPart['plan'], 'findings'> };

/** The lists in which fixes are told. */
export const listsOf = fixLists<StopFix, StopPlace, Pick<FixesReport, 'places' | 'passages'>>;
export type StopList = ReturnType<typeof listsOf>[number];

/** By which a list is gone to. */
export const idOfList = ({ passage, places: [first] }: StopList): string =>
  `fixes ${passage === null ? '' : 'passage '}${first!.code} ${first!.notes.join(' ')}`;

/** What a fix decides. */
export const decisionsOfFix = (fix: StopFix): readonly Decision[] => {
  switch (fix.kind) {
    case 'respell':
    case 'octave':
      return fix.decisions.respell.map(respell);
    case 'leave-out-doubled':
    case 'second-harp':
      return fix.decisions.omit.map(omit);
    case 'leave-out':
      return [...fix.decisions.respell.map(respell), ...fix.decisions.omit.map(omit)];
    case 'delay':
      return fix.decisions.delays.map((notes) => ({ kind: 'delay', notes }));
    case 'tempo':
      return fix.decisions.tempos.map((tempo) => ({ kind: 'tempo', tempo }));
  }
};

type DecisionOf<Kind extends Decision['kind']> = Extract<Decision, { readonly kind: Kind }>;

const respell = (notes: DecisionOf<'respell'>['notes']): Decision => ({ kind: 'respell', notes });
const omit = (notes: DecisionOf<'omit'>['notes']): Decision => ({ kind: 'omit', notes });

const keyOf = (decisions: readonly Decision[]): string => decisions.map(decisionKey).sort().join(' ');

/** Whether a place of a finding is the one that fixes were searched for. */
const isPlace = (finding: PedalFinding, at: number, stop: Pick<StopPlace, 'code' | 'barIndex' | 'notes'>) => {
  const { bar, notes } = finding.places[at]!;
  return finding.code === stop.code && bar === stop.barIndex && `${notes}` === `${stop.notes}`;
};

/** The place of an answer that a finding tells of; undefined where it was not looked at. */
export const stopOf = (places: readonly StopPlace[], finding: PedalFinding): StopPlace | undefined =>
  places.find((stop) => finding.places.some((_, at) => isPlace(finding, at, stop)));

/** Of a note that sounds otherwise, a fix that stood at once says nothing: that is searched for. */
const heardWith = (changes: readonly NoteChange[]): string =>
  changes.every((change) => change.kind === 'respell' && midiOf(change.from) === midiOf(change.to))
    ? NOTHING_HEARD
    : '';

/** A fix that stood at once, as one of those that were searched; its sentence says what it costs. */
const asSearched = (part: Part, { sentence, changes }: Pick<NoteFix, 'sentence' | 'changes'>): PlaceFix => {
  const { respell, omit }: Decisions = addDecisions(NO_DECISIONS, decisionsOf(part, changes));
  const told = {
    sentence,
    heard: heardWith(changes),
    moreMoves: 0,
    moreWarnings: 0,
    warningsThen: [],
    alsoFixes: 0,
    atAll: false,
    cost: 0,
  };
  const nameNote = (note: string): NotesAt => part.notes.get(note)!.notes;
  const known = changes.filter(({ note }) => part.notes.has(note));
  const respelled = known.flatMap((each) =>
    each.kind === 'respell' ? [reportRespelled(each, nameNote)] : [],
  );
  return respelled.length === known.length
    ? { ...told, kind: 'respell', changes: respelled, decisions: { respell } }
    : {
        ...told,
        kind: 'leave-out',
        changes: known.map((each) => reportChange(each, nameNote)),
        decisions: { respell, omit },
      };
};

/** What is respelled and costs no moves comes first, then what was searched, in its own order; last the others. */
const rankOf = (fix: Parameters<typeof comesFirst>[0], isQuick: boolean): number =>
  comesFirst(fix) ? 0 : isQuick ? 2 : 1;

/** One list of the fixes of a place: those that were searched with those that stood at once, none twice. */
const joinFixes = (part: Part, stop: StopPlace): StopPlace => {
  const known = new Set(stop.fixes.map((fix) => keyOf(decisionsOfFix(fix))));
  const quick = part.plan.findings
    .flatMap((finding) => finding.fixes.filter((fix) => fix.places.some((at) => isPlace(finding, at, stop))))
    .filter(({ changes }) => !known.has(keyOf(decisionsOf(part, changes))));
  const ranked = [
    ...stop.fixes.map((fix) => ({ fix, rank: rankOf(fix, false) })),
    ...quick.map((each) => {
      const fix = asSearched(part, each);
      return { fix, rank: rankOf({ ...fix, moreMoves: each.moreMoves }, true) };
    }),
  ];
  return { ...stop, fixes: ranked.sort((a, b) => a.rank - b.rank).map(({ fix }) => fix) };
};

/** The places that were searched with the fixes that the findings of the part had already. */
export const joinQuickFixes = (part: Part, places: readonly StopPlace[]): readonly StopPlace[] =>
  places.map((stop) => joinFixes(part, stop));
