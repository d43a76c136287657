import {
  extentOf,
  type HarpFinding,
  nameExtent,
  orderForPeople,
  SEVERITY_WORDS,
} from '../../engine/index.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { STUDY_WORDS as WORDS } from './words.ts';

/** What the player should know, the gravest first, each with what would help. */
export const writeFindings = (findings: readonly HarpFinding[], sheet: Sheet): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const { widthMm, emMm } = sheet;
  if (findings.length === 0) return writeParagraph(WORDS.noFindings, widthMm, { lettering: text });
  return orderForPeople<HarpFinding>(findings).flatMap(({ finding }) => [
    ...writeParagraph(`${SEVERITY_WORDS[finding.severity].name}: ${nameExtent(extentOf(finding))}`, widthMm, {
      lettering: strong,
      keepsWithNext: true,
    }),
    ...writeParagraph(finding.sentence, widthMm, { lettering: text }),
    ...finding.suggestions.flatMap((suggestion) =>
      writeParagraph(suggestion, widthMm, { lettering: text, indentMm: 1.2 * emMm, mark: '•' }),
    ),
    emptySpace(0.7 * emMm),
  ]);
};
