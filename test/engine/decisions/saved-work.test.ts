import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkWork } from '../../../engine/decisions/check-work.ts';
import { chooseWork } from '../../../engine/decisions/choose-work.ts';
import { NO_WORK, type Work } from '../../../engine/decisions/model.ts';
import { readSavedWork } from '../../../engine/decisions/read-work.ts';
import { workInstruction } from '../../../engine/decisions/write-work.ts';
import { encodeText } from '../../../engine/score/decode.ts';
import type { Score } from '../../../engine/score/model.ts';
import { openScore } from '../../../engine/score/open.ts';
import { buildHarp, note } from '../score/musicxml-builder.ts';
import { anyWork } from './any-work.ts';

const XML = buildHarp(note('C4', 2) + note('C#4', 2), note('C4', 4));

const read = (xml: string): Score => {
  const opened = openScore(encodeText(xml, 'utf-8'));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** The score with something before the root's end tag. */
const ending = (what: string): Score => read(XML.replace(/<\/score-partwise>\s*$/, (end) => what + end));

const SCORE = read(XML);

const WORK: Work = {
  ...NO_WORK,
  respell: [{ bar: 0, beat: '3', pitch: 'C♯4', to: 'D♭4' }],
  leaveOut: [{ bar: 1, beat: '1', pitch: 'C4' }],
};

describe('work saved in a file', () => {
  it('is read back as it was written, whatever it is', () => {
    fc.assert(
      fc.property(anyWork, (work) => {
        const [saved, ...more] = readSavedWork(ending(workInstruction(SCORE, work)));
        expect(more).toEqual([]);
        expect(saved).toMatchObject({ kind: 'work', work });
      }),
    );
  });

  it('is plain ASCII that ends where it says, though a pitch be called “?>” or “♯”', () => {
    const hostile: Work = { ...NO_WORK, leaveOut: [{ bar: 0, beat: '1', pitch: '?><x>♯𝄪' }] };
    const text = workInstruction(SCORE, hostile);
    expect(text).toMatch(/^<\?tringle-work [ -~]*\?>$/);
    expect(text.match(/[<>]/g)).toHaveLength(2);
    expect(readSavedWork(ending(text))[0]).toMatchObject({ kind: 'work', work: hostile });
  });

  it('stands as an instruction at the end: not in a comment, not as text, not amid the music', () => {
    const text = workInstruction(SCORE, WORK);
    expect(readSavedWork(ending(`<!-- ${text} -->`))).toEqual([]);
    expect(readSavedWork(read(XML.replace('<measure', () => `${text}<measure`)))).toEqual([]);
    expect(readSavedWork(ending(`<!-- ${text} -->${text}`))).toHaveLength(1);
  });

  it('leaves the notes as they are, with their ids', () => {
    expect(ending(workInstruction(SCORE, WORK)).notes).toEqual(SCORE.notes);
  });

  it('of another harp in the file is not this one’s', () => {
    const text = workInstruction(SCORE, WORK);
    expect(readSavedWork(ending(text.replace('"part":"P1"', '"part":"P2"')))).toEqual([]);
  });

  it.each([
    ['', 'it is not JSON'],
    ['{', 'it is not JSON'],
    ['[]', 'it is not a list of choices'],
    ['null', 'it is not a list of choices'],
    ['{"pins":null}', '“pins” is not understood'],
    ['7', 'it is not a list of choices'],
    ['{"steps":[]}', '“steps”'],
    ['{"pins":{}}', '“pins”'],
    ['{"pins":[{"kind":"move"}]}', '“pins.0”'],
    ['{"leaveOut":[{"bar":0,"beat":"1","pitch":"C4","x":1}]}', '“leaveOut.0”'],
    ['{"leaveOut":[{"bar":0.5,"beat":"1","pitch":"C4"}]}', '“leaveOut.0”'],
    ['{"leaveOut":[{"bar":0,"beat":"1/0","pitch":"C4"}]}', '“leaveOut.0”'],
    ['{"settingsAt":[{"bar":0,"beat":"1","print":"yes"}]}', '“settingsAt.0”'],
    [`${'['.repeat(100_000)}`, 'it is not JSON'],
    [`{"pins":[${' '.repeat(4_000_000)}]}`, 'far too long'],
  ])('that is broken is remarked and set aside: %.40s', (json, reason) => {
    const chosen = chooseWork(ending(`<?tringle-work ${json}?>`), null, true);
    expect(chosen.origin).toBe('none');
    expect(chosen.work).toEqual(NO_WORK);
    expect(chosen.remarks).toHaveLength(1);
    expect(chosen.remarks[0]!.message).toContain(reason);
  });

  it('takes any JSON whatever without a throw, and what it takes is a work', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const checked = checkWork(value);
        if (checked.ok) expect(checkWork(checked.work)).toEqual(checked);
      }),
    );
  });
});

describe('the work that a part is planned by', () => {
  const saved = ending(workInstruction(SCORE, WORK));

  it('is what was saved, and says so', () => {
    const chosen = chooseWork(saved, null, true);
    expect(chosen.origin).toBe('saved');
    expect(chosen.work).toEqual(WORK);
    expect(chosen.placed.leftOut.size).toBe(1);
    expect(chosen.remarks.map(({ message }) => message)).toEqual([
      'The work saved in the file is used: 1 string chosen, 1 note left out.',
    ]);
  });

  it('is one’s own where there is one, though it be empty', () => {
    expect(chooseWork(saved, NO_WORK, true)).toMatchObject({ origin: 'own', work: NO_WORK, remarks: [] });
  });

  it('is none where what is saved is not wanted', () => {
    expect(chooseWork(saved, null, false)).toMatchObject({ origin: 'none', work: NO_WORK, remarks: [] });
  });

  it('tells what of it has no place any more', () => {
    const lost = { ...WORK, leaveOut: [{ bar: 5, beat: '1', pitch: 'C4' }] };
    const { remarks, placed } = chooseWork(ending(workInstruction(SCORE, lost)), null, true);
    expect(remarks[1]!.message).toBe(
      'The C4 left out in bar 6, beat 1 is set aside: the part has no such bar.',
    );
    expect(placed.respelled.size).toBe(1);
  });
});
