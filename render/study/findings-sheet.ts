import { group } from 'd3-array';
import {
  add,
  type Bar,
  beatOffset,
  type CountedBar,
  capitalize,
  countBars,
  extentOf,
  formatBeat,
  type HarpFinding,
  type Help,
  type Note,
  type NoteFix,
  nameBarIn,
  nameEndsIn,
  notesById,
  orderForPeople,
  type Rational,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import { tellFinding } from '../facts/tell-finding.ts';
import { tellFix, tellHelp } from '../facts/tell-help.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';

/** What the player should know, the gravest first, each with what would help. */
export const writeFindings = (
  score: Score,
  findings: readonly HarpFinding[],
  naming: NoteNaming,
  sheet: Sheet,
): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const { widthMm, emMm } = sheet;
  const words = wordsOf(sheet);
  const told: Places = {
    bars: score.bars,
    notes: notesById(score.notes),
    counted: countBars(score),
    nameBar: nameBarIn(score),
    nameEnds: nameEndsIn(score),
  };
  return orderForPeople<HarpFinding>(findings).flatMap(({ finding }) => [
    ...writeParagraph(
      words.labelled(
        words.findings.severities[finding.severity],
        words.afterLabel(tellPlace(finding, told, words)),
      ),
      widthMm,
      {
        lettering: strong,
        keepsWithNext: true,
      },
    ),
    ...writeParagraph(tellFinding(finding, naming, words), widthMm, { lettering: text }),
    ...writeRemedies(finding, told, naming, sheet),
    emptySpace(0.7 * emMm),
  ]);
};

/** That markings of the file are not on the pages, since ours stand there. */
export const writeMadeWay = (markings: number, sheet: Sheet): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const { findings } = wordsOf(sheet);
  return [
    ...writeParagraph(findings.severities.note, sheet.widthMm, { lettering: strong, keepsWithNext: true }),
    ...writeParagraph(findings.markingsMadeWay(markings), sheet.widthMm, { lettering: text }),
  ];
};

/** What places are told by. */
interface Places {
  readonly bars: readonly Bar[];
  /** By their ids. */
  readonly notes: ReadonlyMap<string, Note>;
  readonly counted: readonly CountedBar[];
  readonly nameBar: (bar: number) => string;
  readonly nameEnds: ReturnType<typeof nameEndsIn>;
}

/** As the counts of the other sheets say it. */
const tellPlace = (finding: HarpFinding, { bars, counted, nameEnds }: Places, { places }: Words): string => {
  const { onset, meter } = bars[finding.bar]!;
  const { countAt } = counted[finding.bar]!;
  const at = add(onset, beatOffset(meter, finding.beat));
  const [from, until] = nameEnds(finding.bar, finding.places.at(-1)!.bar);
  return places.extent({ ...extentOf(finding), from, until, count: formatBeat(countAt(at)) });
};

/** So many remedies of a finding are printed, the best of them. */
const MOST_REMEDIES = 3;

/** What would help: of several remedies one is enough. */
const writeRemedies = (
  finding: HarpFinding,
  told: Places,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Block[] => {
  const { text, aside } = letteringsOf(sheet);
  const words = wordsOf(sheet);
  const { oneIsEnough, oneForEachPlace, moreRemedies } = words.findings;
  const all = listRemedies(finding, told, naming, words);
  // One that would be the only one left out stands in place of the words that it is.
  const printed = all.length === MOST_REMEDIES + 1 ? all : all.slice(0, MOST_REMEDIES);
  const write = (sentence: string, mark: string): readonly Block[] =>
    writeParagraph(sentence, sheet.widthMm, { lettering: text, indentMm: 1.2 * sheet.emMm, mark });
  return [
    ...finding.help
      .filter(isNote)
      .flatMap((each) =>
        writeParagraph(tellHelpAt(finding, each, told, naming, words), sheet.widthMm, { lettering: text }),
      ),
    ...(all.length < 2
      ? []
      : writeParagraph(finding.places.length === 1 ? oneIsEnough : oneForEachPlace, sheet.widthMm, {
          lettering: aside,
          keepsWithNext: true,
        })),
    ...printed.flatMap((each) => write(each, '•')),
    ...(all.length > printed.length ? write(moreRemedies(all.length - printed.length), '') : []),
  ];
};

/** What is to be known of the remedies, and is none itself. */
const NOTES: readonly Help['kind'][] = ['ask-technician', 'retuning-is-no-help', 'no-tuning-helps'];

const isNote = ({ kind }: Help): boolean => NOTES.includes(kind);

const listRemedies = (
  finding: HarpFinding,
  told: Places,
  naming: NoteNaming,
  words: Words,
): readonly string[] => {
  const { fixes, help, places } = finding;
  const ofFixes = placeByPlace(fixes, told).map((fix) => {
    const sentence = tellFix(fix, naming, words);
    // Of several places, which one a fix is for; what names its bars says so itself.
    const isPlaced = places.length === 1 || fix.told.kind === 'change-notes';
    return isPlaced ? sentence : withPlace(fix, sentence, told, words);
  });
  const ofHelp = help
    .filter((each) => !isNote(each))
    .map((each) => tellHelpAt(finding, each, told, naming, words));
  return [...new Set([...ofFixes, ...ofHelp])];
};

/** The first fix of each place, then the second of each, so that a few of them serve as many places as they can. */
const placeByPlace = (fixes: readonly NoteFix[], { notes }: Places): readonly NoteFix[] => {
  const ofPlaces = group(fixes, ({ changes: [first] }) => {
    const note = first === undefined ? undefined : notes.get(first.note);
    return note === undefined ? '' : `${note.bar} ${rationalKey(note.onset)}`;
  });
  const turns = [...ofPlaces.values()].flatMap((own) => own.map((fix, turn) => ({ fix, turn })));
  return turns.toSorted((a, b) => a.turn - b.turn).map(({ fix }) => fix);
};

const withPlace = ({ changes }: NoteFix, sentence: string, told: Places, words: Words): string => {
  const [first] = changes;
  const note = first === undefined ? undefined : told.notes.get(first.note);
  if (note === undefined) return sentence;
  return words.labelled(capitalize(nameMoment(note.bar, note.onset, told, words)), sentence);
};

/** What would help, after the places that it is for where it is not for all of its finding. */
const tellHelpAt = (
  { places }: HarpFinding,
  help: Help,
  told: Places,
  naming: NoteNaming,
  words: Words,
): string => {
  const sentence = tellHelp(help, naming, words);
  if (help.places === null) return sentence;
  const names = help.places.map((i) => {
    const { bar, beat } = places[i]!;
    const { onset, meter } = told.bars[bar]!;
    return nameMoment(bar, add(onset, beatOffset(meter, beat)), told, words);
  });
  return words.labelled(capitalize([...new Set(names)].join('; ')), sentence);
};

/** “bar 3, beat 2”, as the counts of the other sheets say it. */
const nameMoment = (bar: number, at: Rational, { counted, nameBar }: Places, { places }: Words): string => {
  const count = formatBeat(counted[bar]!.countAt(at));
  const name = nameBar(bar);
  return places.extent({ from: name, until: name, count, places: 1, notes: 1 });
};
