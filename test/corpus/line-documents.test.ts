import { beforeAll, describe, expect, it } from 'vitest';
import { openScore } from '../../engine/score/open.ts';
import { completeEngraving } from '../../render/engraving-options.ts';
import { chooseBreaks } from '../../render/layout/breaks/choose-breaks.ts';
import { pageLayoutOf } from '../../render/layout/breaks/page-layout.ts';
import { turnRater } from '../../render/layout/breaks/page-turns.ts';
import { prepareDocument } from '../../render/layout/document/layout-document.ts';
import { type Drawer, startDrawer } from '../../render/layout/drawer/drawer.ts';
import { outlineDocument } from '../../render/layout/lines/document-outline.ts';
import { openLines } from '../../render/layout/lines/draw-lines.ts';
import { divideIntoLines } from '../../render/layout/lines/line-documents.ts';
import { ownIds } from '../../render/layout/lines/own-ids.ts';
import { measurePart } from '../../render/layout/measure/measure-part.ts';
import { ALL_STAVES } from '../../render/layout/spaces/reserve-spaces.ts';
import { workOut } from '../../render/layout/stepwise.ts';
import { oneIn } from '../thorough.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

/** Verovio's own layout of all lines in one document is the oracle. */
describe.skipIf(!hasScores)('the lines of real parts (skipped without ../shared/scores)', () => {
  const engraving = completeEngraving({});
  const layout = pageLayoutOf(engraving);
  let drawer: Drawer;
  beforeAll(async () => {
    drawer = await startDrawer();
  });

  /** The music of a part with a page break before each of its lines. */
  const documentOf = (file: string, part: string | undefined): string => {
    const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
    if (!opened.ok) throw new Error(`${file}: ${opened.problem.code}`);
    const score = opened.value;
    const request = {
      ...{ score, harps: [score.harp], others: new Set<string>(), engraving, layout },
      played: { respellings: [], omitted: [] },
      signEdits: () => [],
      signIds: new Set<string>(),
      cues: { cues: [], score, staves: ALL_STAVES },
      full: ALL_STAVES,
      leftOut: [],
      entries: [],
      spacesFor: () => [],
      early: false,
      under: () => 0,
    };
    const document = prepareDocument(request, drawer)!;
    const { systems } = chooseBreaks(
      workOut(measurePart({ request, document, drawer, rate: turnRater(score) }, []))!,
    );
    return document.write([], systems);
  };

  it.each(oneIn(3, SMALLER_HARP_SCORES))(
    'look alone as they do among all others: $file',
    ({ file, part }) => {
      const mei = documentOf(file, part);
      const documents = divideIntoLines(outlineDocument(mei)!)!;
      const own = (svg: string, line: number): string =>
        ownIds(svg, documents.ids, `line-${documents.nameOf(line)}`);
      const whole = drawer.engraver.drawPages(mei, layout)!.map(own);
      expect(whole).toHaveLength(documents.count);
      // In one document the end of a movement announces the next: those lines are meant to look otherwise.
      const isSame = (line: number): boolean => !documents.endsMovement(line);
      // Some of them: a line by itself takes as long to load as several.
      const alone = whole.map((svg, line) => {
        if (line % 3 !== 0) return svg;
        const { extra, mei: document, pages } = documents.write(line, line);
        return own(drawer.engraver.drawPages(document, layout, pages)![extra]!, line);
      });
      expect(whole.flatMap((svg, line) => (alone[line] === svg ? [] : [line])).filter(isSame)).toEqual([]);
      const drawn = openLines(drawer.engraver, mei, layout);
      const lines = drawn.draw()!;
      expect(drawn.count).toBe(documents.count);
      expect(whole.flatMap((svg, line) => (lines[line] === svg ? [] : [line])).filter(isSame)).toEqual([]);
    },
  );
});
