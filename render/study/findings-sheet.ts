import {
  add,
  type Bar,
  beatOffset,
  type CountedBar,
  countBars,
  extentOf,
  formatBeat,
  type HarpFinding,
  type Note,
  type NoteFix,
  notesById,
  orderForPeople,
  type Score,
} from '../../engine/index.ts';
import { tellFinding } from '../facts/tell-finding.ts';
import { tellFix, tellHelp } from '../facts/tell-help.ts';
import { nameBarIn, nameEndsIn } from '../markings/bar-names.ts';
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
  if (findings.length === 0) return writeParagraph(words.study.noFindings, widthMm, { lettering: text });
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
    ...listHelp(finding, told, naming, sheet).flatMap((each) =>
      writeParagraph(each, widthMm, { lettering: text, indentMm: 1.2 * emMm, mark: '•' }),
    ),
    emptySpace(0.7 * emMm),
  ]);
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

const listHelp = (
  { suggestions, fixes, help, places }: HarpFinding,
  told: Places,
  naming: NoteNaming,
  sheet: Sheet,
): readonly string[] => {
  if (sheet.language === 'english') return suggestions;
  const words = wordsOf(sheet);
  const ofFixes = fixes.map((fix) => {
    const sentence = tellFix(fix, naming, words);
    // Of several places, which one a fix is for; what names its bars says so itself.
    const isPlaced = places.length === 1 || fix.told.kind === 'change-notes';
    return isPlaced ? sentence : withPlace(fix, sentence, told, words);
  });
  return [...new Set([...ofFixes, ...help.map((each) => tellHelp(each, naming, words))])];
};

const withPlace = (
  { changes }: NoteFix,
  sentence: string,
  { notes, counted, nameBar }: Places,
  { labelled, places }: Words,
): string => {
  const [first] = changes;
  const note = first === undefined ? undefined : notes.get(first.note);
  if (note === undefined) return sentence;
  const count = formatBeat(counted[note.bar]!.countAt(note.onset));
  const bar = nameBar(note.bar);
  return labelled(places.extent({ from: bar, until: bar, count, places: 1, notes: 1 }), sentence);
};
