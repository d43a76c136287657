import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDecisions } from '../../../engine/decisions/check-decisions.ts';
import { chooseDecisions } from '../../../engine/decisions/choose-decisions.ts';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { readSavedDecisions } from '../../../engine/decisions/read-saved-decisions.ts';
import { decisionsInstruction } from '../../../engine/decisions/save-decisions.ts';
import { encodeText } from '../../../engine/score/file/decode.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { buildHarp, note } from '../score/musicxml/musicxml-builder.ts';
import { anyDecisions } from './any-decisions.ts';

const XML = buildHarp(note('C4', 2) + note('C#4', 2), note('C4', 4));

const read = (xml: string): Score => {
  const opened = openScore(encodeText(xml, 'utf-8'));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** The score with something before the root's end tag. */
const ending = (what: string): Score => read(XML.replace(/<\/score-partwise>\s*$/, (end) => what + end));

const SCORE = read(XML);

const WORK: Decisions = {
  ...NO_DECISIONS,
  respell: [{ barIndex: 0, beat: '3', pitch: 'C♯4', to: 'D♭4' }],
  omit: [{ barIndex: 1, beat: '1', pitch: 'C4' }],
};

describe('decisions saved in a file', () => {
  it('is read back as it was written, whatever it is', () => {
    fc.assert(
      fc.property(anyDecisions, (decisions) => {
        const [saved, ...more] = readSavedDecisions(ending(decisionsInstruction(SCORE, decisions)));
        expect(more).toEqual([]);
        expect(saved).toMatchObject({ kind: 'decisions', decisions });
      }),
    );
  });

  it('is plain ASCII that ends where it says, though a pitch be called “?>” or “♯”', () => {
    const hostile: Decisions = { ...NO_DECISIONS, omit: [{ barIndex: 0, beat: '1', pitch: '?><x>♯𝄪' }] };
    const text = decisionsInstruction(SCORE, hostile);
    expect(text).toMatch(/^<\?tringle-decisions [ -~]*\?>$/);
    expect(text.match(/[<>]/g)).toHaveLength(2);
    expect(readSavedDecisions(ending(text))[0]).toMatchObject({ kind: 'decisions', decisions: hostile });
  });

  it('stands as an instruction at the end: not in a comment, not as text, not amid the music', () => {
    const text = decisionsInstruction(SCORE, WORK);
    expect(readSavedDecisions(ending(`<!-- ${text} -->`))).toEqual([]);
    expect(readSavedDecisions(read(XML.replace('<measure', () => `${text}<measure`)))).toEqual([]);
    expect(readSavedDecisions(ending(`<!-- ${text} -->${text}`))).toHaveLength(1);
  });

  it('leaves the notes as they are, with their ids', () => {
    expect(ending(decisionsInstruction(SCORE, WORK)).notes).toEqual(SCORE.notes);
  });

  it('of another harp in the file is not this one’s', () => {
    const text = decisionsInstruction(SCORE, WORK);
    expect(readSavedDecisions(ending(text.replace('"part":"P1"', '"part":"P2"')))).toEqual([]);
  });

  it.each([
    ['', 'they are not JSON'],
    ['{', 'they are not JSON'],
    ['[]', 'they are not lists of decisions'],
    ['null', 'they are not lists of decisions'],
    ['{"pins":null}', '“pins” is not understood'],
    ['7', 'they are not lists of decisions'],
    ['{"steps":[]}', '“steps”'],
    ['{"pins":{}}', '“pins”'],
    ['{"pins":[{"kind":"move"}]}', '“pins.0”'],
    ['{"omit":[{"barIndex":0,"beat":"1","pitch":"C4","x":1}]}', '“omit.0”'],
    ['{"omit":[{"barIndex":0.5,"beat":"1","pitch":"C4"}]}', '“omit.0”'],
    ['{"omit":[{"barIndex":0,"beat":"1/0","pitch":"C4"}]}', '“omit.0”'],
    ['{"fullSettings":[{"barIndex":0,"beat":"1","print":"yes"}]}', '“fullSettings.0”'],
    [`${'['.repeat(100_000)}`, 'they are not JSON'],
    [`{"pins":[${' '.repeat(4_000_000)}]}`, 'far too long'],
  ])('that is broken is remarked and set aside: %.40s', (json, reason) => {
    const chosen = chooseDecisions(ending(`<?tringle-decisions ${json}?>`), null, true);
    expect(chosen.origin).toBe('none');
    expect(chosen.decisions).toEqual(NO_DECISIONS);
    expect(chosen.remarks).toHaveLength(1);
    expect(chosen.remarks[0]!.message).toContain(reason);
  });

  it('takes any JSON whatever without a throw, and what it takes is decisions', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const checked = checkDecisions(value);
        if (checked.ok) expect(checkDecisions(checked.decisions)).toEqual(checked);
      }),
    );
  });
});

describe('the decisions that a part is planned by', () => {
  const saved = ending(decisionsInstruction(SCORE, WORK));

  it('is what was saved, and says so', () => {
    const chosen = chooseDecisions(saved, null, true);
    expect(chosen.origin).toBe('saved');
    expect(chosen.decisions).toEqual(WORK);
    expect(chosen.placed.omitted.size).toBe(1);
    expect(chosen.remarks.map(({ message }) => message)).toEqual([
      'The plan follows the decisions saved in the file: 1 note respelled, 1 note left out.',
    ]);
  });

  it('is one’s own where there is one, though it be empty', () => {
    expect(chooseDecisions(saved, NO_DECISIONS, true)).toMatchObject({
      origin: 'own',
      decisions: NO_DECISIONS,
      remarks: [],
    });
  });

  it('is none where what is saved is not wanted', () => {
    expect(chooseDecisions(saved, null, false)).toMatchObject({
      origin: 'none',
      decisions: NO_DECISIONS,
      remarks: [],
    });
  });

  it('tells what of it has no place any more', () => {
    const lost = { ...WORK, omit: [{ barIndex: 5, beat: '1', pitch: 'C4' }] };
    const { remarks, placed } = chooseDecisions(ending(decisionsInstruction(SCORE, lost)), null, true);
    expect(remarks[1]!.message).toBe(
      'The decision to leave out C4 in bar 6, beat 1 is ignored: the part has no such bar.',
    );
    expect(placed.respelled.size).toBe(1);
  });
});
