import { group } from '../group.ts';
import { pitchName } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';
import { formatBeat } from '../words/format-beat.ts';
import { forSomePlaces } from '../words/plan-words.ts';
import { FAST_CHANGE_TROUBLES } from './catalogue/entry.ts';
import { FINDINGS, type FindingCode, PASSAGE_SENTENCES, type PassageCode } from './catalogue.ts';
import { describeHelp, type Help, type ToldHelp } from './help/help.ts';
import type { NoteHelp } from './help/note-help.ts';
import {
  describeFix,
  type Finding,
  type FindingPlace,
  inPlaces,
  type NoteFix,
  suggestionsOf,
} from './model.ts';
import { orderByPlace } from './order-findings.ts';
import { SEVERITIES } from './severity.ts';

/**
 * Tells each trouble once: a fast change that several findings are about draws the gravest of them, and neighbours of
 * one code, where the catalogue has a sentence for several, become one finding with all their places. Neighbours are
 * at most one bar without the trouble apart.
 *
 * No note, fix or advice is lost, and no severity changes; a fix that two of them offer is told once.
 *
 * @returns in order of the first place; at one place as they were given
 */
export const joinFindings = <Code extends FindingCode>(findings: readonly Finding<Code>[]): Finding<Code>[] =>
  joinNeighbours(orderByPlace(absorbFastChanges(findings)));

/** Findings about one fast change: the gravest, which is told, and those that it is told in place of. */
export interface FastChange<Code extends FindingCode> {
  readonly stands: Finding<Code>;
  readonly others: readonly Finding<Code>[];
}

/** All of these findings name the note that needs the change last, so that the change is known by it. */
export const listFastChanges = <Code extends FindingCode>(
  findings: readonly Finding<Code>[],
): readonly FastChange<Code>[] => {
  const ofChanges = findings.filter(({ code, notes }) => notes.length > 0 && rankOf(code) >= 0);
  return [...group(ofChanges, ({ notes }) => notes.at(-1)!).values()].map((same) => {
    const stands = same.toSorted((a, b) => weightOf(a) - weightOf(b))[0]!;
    return {
      stands,
      others: same.filter((other) => other.code !== stands.code && !isOfOtherStrings(other, stands)),
    };
  });
};

/** A string that is plucked again too soon says nothing of others that the same pedal bends. */
const isOfOtherStrings = (other: Finding<FindingCode>, stands: Finding<FindingCode>): boolean =>
  stands.code === 'string-restruck-fast' &&
  other.code === 'ringing-string-moved' &&
  other.notes.some((note) => !stands.notes.includes(note));

const absorbFastChanges = <Code extends FindingCode>(findings: readonly Finding<Code>[]): Finding<Code>[] => {
  const told = new Map<Finding<Code>, Finding<Code> | null>();
  for (const { stands, others } of listFastChanges(findings)) {
    for (const other of others) told.set(other, null);
    if (others.length > 0) told.set(stands, absorb(stands, others));
  }
  return findings.flatMap((finding) => {
    const now = told.get(finding);
    return now === null ? [] : [now ?? finding];
  });
};

/** Of equally grave findings about one fast change the nearest to its cause stands; -1 for those that are about none. */
const rankOf = (code: FindingCode): number => {
  const trouble = FINDINGS[code].ofFastChange ?? null;
  return trouble === null ? -1 : FAST_CHANGE_TROUBLES.indexOf(trouble);
};

const weightOf = ({ severity, code }: Finding<FindingCode>): number =>
  SEVERITIES.indexOf(severity) * FAST_CHANGE_TROUBLES.length + rankOf(code);

const absorb = <Code extends FindingCode>(
  stands: Finding<Code>,
  others: readonly Finding<Code>[],
): Finding<Code> => {
  const notes = uniqueOf([stands, ...others].flatMap((each) => each.notes));
  const all = [stands, ...others.map((other) => atPlaceOf(other, stands))];
  const fixes = joinRepeats(all.flatMap((each) => each.fixes));
  const help = withoutSameWords(all.flatMap((each) => each.help));
  const places = [{ ...stands.places[0]!, notes }];
  return { ...stands, notes, fixes, help, suggestions: suggestionsOf({ fixes, help, places }), places };
};

type Offered = Pick<Finding<FindingCode>, 'fixes' | 'help'>;

/** What would help, as it is told at the place of another finding: what left its beat to its own place tells it now. */
const atPlaceOf = (own: Finding<FindingCode>, stands: FindingPlace): Offered => {
  if (own.bar === stands.bar && compare(own.beat, stands.beat) === 0) return own;
  const beat = formatBeat(own.beat);
  return {
    fixes: own.fixes.map((fix) => {
      const told = withBeat(fix.told, beat);
      return { ...fix, told, sentence: describeFix(told, fix.moreMoves) };
    }),
    help: own.help.map((each) =>
      each.kind === 'without-other-fixes'
        ? { ...each, facts: { fix: withBeat(each.facts.fix, beat) } }
        : each,
    ),
  };
};

/** Changes without a beat are all of notes at the place that they were told at (`beatsToTell`). */
const withBeat = (told: NoteHelp, beat: string): NoteHelp =>
  told.kind !== 'change-notes'
    ? told
    : {
        ...told,
        facts: {
          changes: told.facts.changes.map((each) =>
            each.beats.length > 0 ? each : { ...each, beats: [beat] },
          ),
        },
      };

const joinNeighbours = <Code extends FindingCode>(findings: readonly Finding<Code>[]): Finding<Code>[] => {
  const runs: Finding<Code>[][] = [];
  const open = new Map<Code, Finding<Code>[]>();
  for (const finding of findings) {
    const run = open.get(finding.code);
    if (run !== undefined && isPassage(finding) && areNeighbours(run.at(-1)!, finding)) run.push(finding);
    else {
      const next = [finding];
      runs.push(next);
      open.set(finding.code, next);
    }
  }
  return runs.map((run) => (run.length === 1 ? run[0]! : joinRun(run)));
};

const isPassage = ({ code }: Finding<FindingCode>): boolean => Object.hasOwn(PASSAGE_SENTENCES, code);

/** Bars from one place to the next of the same passage: one bar between them may be free of the trouble. */
const BARS_APART = 2;

/** Whether findings of one code are told as one passage, the one after the other. */
export const areNeighbours = (before: Finding<FindingCode>, after: Finding<FindingCode>): boolean =>
  after.bar - before.places.at(-1)!.bar <= BARS_APART;

const joinRun = <Code extends FindingCode>(run: readonly Finding<Code>[]): Finding<Code> => {
  const first = run[0]!;
  // Only what is told of passages was put together.
  const code = first.code as Extract<Code, PassageCode>;
  const guessed = run.some(({ told }) => told.guessed);
  const places = run.flatMap((each) => each.places);
  const fixes = joinRepeats(run.flatMap((each, i) => each.fixes.map((fix) => ({ ...fix, places: [i] })))).map(
    (fix) => ({ ...fix, sentence: fixInPlaces(places, fix) }),
  );
  const help = helpInPlaces(run);
  return {
    ...first,
    staff: run.every(({ staff }) => staff === first.staff) ? first.staff : null,
    hand: run.every(({ hand }) => hand === first.hand) ? first.hand : null,
    notes: uniqueOf(run.flatMap(({ notes }) => notes)),
    sentence: PASSAGE_SENTENCES[code](run.length, guessed),
    told: { kind: 'passage', code, places: run.length, guessed },
    fixes,
    help,
    suggestions: suggestionsOf({ fixes, help, places }),
    places,
  };
};

/** What serves several places is one thing to do. */
const joinRepeats = (fixes: readonly NoteFix[]): readonly NoteFix[] =>
  [...group(fixes, ({ changes }) => changes.map(nameChange).sort().join(' ')).values()].map((same) => ({
    ...same[0]!,
    places: uniqueOf(same.flatMap(({ places }) => places)),
  }));

const nameChange = (change: NoteChange): string =>
  `${change.note}:${change.kind === 'respell' ? pitchName(change.to) : ''}`;

/** Which places of the passage a fix serves: one by its bar, and its beat where several are in the bar; several by their number. */
const fixInPlaces = (places: readonly FindingPlace[], { places: meant, sentence }: NoteFix): string =>
  meant.length === 1
    ? inPlaces(places, meant, sentence)
    : `${forSomePlaces(meant.length, places.length)}${sentence}`;

/**
 * What is said in the same words of several places is said once, with the places that it is for unless it is for all. What
 * a fix of a place says already is not said of it again.
 */
const helpInPlaces = (run: readonly Finding<FindingCode>[]): readonly Help[] =>
  withoutSameWords(run.flatMap(({ help }) => help)).flatMap((each) => {
    const words = describeHelp(each);
    const says = (told: ToldHelp): boolean => describeHelp(told) === words;
    const places = run.flatMap(({ help, fixes }, i) =>
      help.some(says) && !fixes.some(({ told }) => says(told)) ? [i] : [],
    );
    if (places.length === 0) return [];
    return [{ ...each, places: places.length === run.length ? null : places }];
  });

const withoutSameWords = (help: readonly Help[]): readonly Help[] => [
  ...new Map(help.map((each) => [describeHelp(each), each] as const)).values(),
];

const uniqueOf = <Item>(items: readonly Item[]): readonly Item[] => [...new Set(items)];
