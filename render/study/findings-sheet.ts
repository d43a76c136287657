import {
  add,
  type Bar,
  beatOffset,
  type CountedBar,
  countBars,
  extentOf,
  formatBeat,
  type HarpFinding,
  type NoteFix,
  orderForPeople,
  type Score,
} from '../../engine/index.ts';
import { tellFinding } from '../facts/tell-finding.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { namePitch } from '../sheets/note-words.ts';
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
  const counted = countBars(score);
  if (findings.length === 0) return writeParagraph(words.study.noFindings, widthMm, { lettering: text });
  return orderForPeople<HarpFinding>(findings).flatMap(({ finding }) => [
    ...writeParagraph(
      words.labelled(
        words.findings.severities[finding.severity],
        words.afterLabel(tellPlace(finding, score.bars[finding.bar]!, counted[finding.bar]!, words)),
      ),
      widthMm,
      {
        lettering: strong,
        keepsWithNext: true,
      },
    ),
    ...writeParagraph(tellFinding(finding, naming, words), widthMm, { lettering: text }),
    ...tellHelp(finding, naming, sheet).flatMap((each) =>
      writeParagraph(each, widthMm, { lettering: text, indentMm: 1.2 * emMm, mark: '•' }),
    ),
    emptySpace(0.7 * emMm),
  ]);
};

/** As the counts of the other sheets say it. */
const tellPlace = (
  finding: HarpFinding,
  { onset, meter }: Bar,
  { countAt }: CountedBar,
  { places }: Words,
): string => {
  const at = add(onset, beatOffset(meter, finding.beat));
  return places.extent({ ...extentOf(finding), count: formatBeat(countAt(at)) });
};

const tellHelp = (
  { suggestions, fixes }: HarpFinding,
  naming: NoteNaming,
  sheet: Sheet,
): readonly string[] =>
  sheet.language === 'english' ? suggestions : fixes.map((fix) => tellFix(fix, naming, sheet));

const tellFix = ({ changes }: NoteFix, naming: NoteNaming, sheet: Sheet): string => {
  const { respell, omit } = wordsOf(sheet).findings;
  return changes
    .map((change) =>
      change.kind === 'respell'
        ? respell(namePitch(change.from, naming), namePitch(change.to, naming))
        : omit(namePitch(change.from, naming)),
    )
    .join(' ');
};
