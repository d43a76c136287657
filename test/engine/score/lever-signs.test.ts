import { describe, expect, it } from 'vitest';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { fixesOf } from '../../../engine/proof/choose-edits.ts';
import { proofreadLevers } from '../../../engine/proof/levers/proofread-levers.ts';
import { readLeverSigns } from '../../../engine/score/lever-signs.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { repairLeverSource } from '../../../render/source/repair-lever-source.ts';
import { meiScore } from '../../render/small-score.ts';
import { readAbc, tune } from './abc/abc-builder.ts';

const opened = (bytes: Uint8Array): Score => {
  const read = openScore(bytes);
  if (!read.ok) throw new Error(read.problem.code);
  return read.value;
};

const GRACE =
  '<note pname="f" oct="4" dur="4" accid="s" grace="unacc" head.shape="diamond" stem.visible="false"/>';

/** A quarter of F sharp in the second bar, before which a sign may stand. */
const mei = (sign: string, after = ''): Score => {
  const plain = new TextDecoder().decode(meiScore({ bars: ['g4.2 a4.2/R', 'g4.2 f#4.2/R', 'g4.1/R'] }));
  const at = plain.indexOf('<note pname="f"');
  const text = plain.slice(0, at) + sign + plain.slice(at).replace('/>', `/>${after}`);
  return opened(new TextEncoder().encode(text));
};

const xmlNote = (inner: string): string => `<note>${inner}<voice>1</voice></note>`;
const sounding = (step: string, alter = ''): string =>
  xmlNote(`<pitch><step>${step}</step>${alter}<octave>4</octave></pitch><duration>2</duration>`);
const xml = (sign: string): Score =>
  opened(
    new TextEncoder().encode(
      `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
${sounding('G')}${sign}${sounding('F', '<alter>1</alter>')}</measure></part></score-partwise>`,
    ),
  );
const xmlSign = (kind: string, notehead = '<notehead>diamond</notehead>', notations = ''): string =>
  `<note>${kind}<pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><voice>1</voice>${notehead}${notations}</note>`;
const HARMONIC = '<notations><technical><harmonic/></technical></notations>';

const namesOf = ({ notes }: Score): string[] => notes.map(({ pitch }) => pitchName(pitch));

const signsOf = (score: Score): string[] =>
  readLeverSigns(score).leverWords.map(({ bar, text, form }) => `${bar + 1} ${text} ${form}`);

describe('a small diamond in a part for a lever harp', () => {
  it.each([
    ['MEI, as a grace note', () => mei(GRACE), '2 F♯4 note'],
    ['MusicXML, as a grace note', () => xml(xmlSign('<grace/>')), '1 F♯4 note'],
    ['ABC, as a note without a length', () => readAbc(tune('G4 !style=harmonic!^F0 ^F4|')), '1 F♯4 note'],
  ])('is a marking and no note in %s', async (_, read, sign) => {
    const score = await read();
    expect(signsOf(score)).toEqual([sign]);
    expect(namesOf(readLeverSigns(score))).not.toEqual(namesOf(score));
    expect(readLeverSigns(score).remarks.at(-1)).toMatchObject({
      code: 'lever-signs-read',
      message: 'The small diamond note F♯4 is read as a lever marking: it is not played.',
    });
    expect(readLeverSigns(readLeverSigns(score))).toEqual(readLeverSigns(score));
  });

  it.each([
    [
      'of full size',
      () => mei('', '').notes.length,
      () => mei(GRACE.replace('grace="unacc"', '')).notes.length - 1,
    ],
  ])('%s is a note', (_, plain, withNote) => {
    expect(withNote()).toBe(plain());
    expect(signsOf(mei(GRACE.replace('grace="unacc"', '')))).toEqual([]);
  });

  it('with the sign of a harmonic is played', () => {
    expect(signsOf(xml(xmlSign('<grace/>', undefined, HARMONIC)))).toEqual([]);
    expect(signsOf(mei(GRACE.replace('/>', ' artic="harm"/>')))).toEqual([]);
  });

  it('with a head of the usual shape is a grace note', () => {
    expect(signsOf(xml(xmlSign('<grace/>', '')))).toEqual([]);
  });

  it('of the size of a cue is a marking', () => {
    const cue = '<cue/>';
    const score = xml(xmlSign(cue).replace('<voice>', '<duration>1</duration><voice>'));
    expect(signsOf(score)).toEqual(['1 F♯4 note']);
  });

  it('stays a grace note in a part for a pedal harp', () => {
    expect(namesOf(mei(GRACE))).toHaveLength(6);
  });

  it('asks no lever for anything in a plan', () => {
    const flat = mei(GRACE.replace('accid="s"', 'accid="n"'));
    expect(planLevers(flat).moves.map(({ alter }) => alter)).toEqual(
      planLevers(mei('')).moves.map(({ alter }) => alter),
    );
  });

  it('on the page is printed as it is', async () => {
    const { source } = await readAbc(tune('G4 !style=harmonic!^F0 !style=harmonic!^F4|'));
    expect(source.text.match(/head.shape="diamond"/g)).toHaveLength(2);
    expect(source.text).toContain('grace="unacc" head.shape="diamond" head.fill="void" stem.visible="false"');
  });
});

describe('the proof of small diamonds', () => {
  const options = { ...DEFAULT_LEVER_OPTIONS, profile: LEVER_HARP };
  const table = '<dir staff="1" place="above" tstamp="1">Levers up: A4</dir>';
  const spoilt = (sign: string): Score => {
    const { source } = mei(sign);
    return readLeverSigns(
      opened(new TextEncoder().encode(source.text.replace('</measure>', `${table}</measure>`))),
    );
  };

  it('finds nothing to say where each is right', () => {
    const proof = proofreadLevers(spoilt(GRACE), options);
    expect(proof.findings.map(({ sentence }) => sentence)).toEqual([]);
    expect(proof.markings).toBe(2);
  });

  it.each([
    ['of the wrong sign', GRACE.replace('accid="s"', 'accid="n"')],
    [
      'in a chord of its own with another',
      `<chord dur="4" grace="unacc">${GRACE.replace('accid="s"', 'accid="n"')}</chord>`,
    ],
  ])('corrects one %s in the file, and nothing else', (_, sign) => {
    const score = spoilt(sign);
    const { repair } = proofreadLevers(score, options);
    expect(repair.edits).toHaveLength(1);
    const written = repairLeverSource(score, fixesOf(repair.edits, repair.edits.keys()));
    if (!written.ok) throw new Error(written.problem.code);
    expect(written.value.text).not.toContain('head.shape');
    expect(written.value.text).not.toContain('grace');
    const again = readLeverSigns(opened(written.value.bytes));
    expect(namesOf(again)).toEqual(namesOf(score));
    expect(proofreadLevers(again, options).correct).toBe(true);
  });

  it('says of which note it speaks', () => {
    const { findings } = proofreadLevers(spoilt(GRACE.replace('accid="s"', 'accid="n"')), options);
    expect(findings.flatMap(({ suggestions }) => suggestions).join(' ')).toContain(
      'the small note F♮4 at bar 2',
    );
  });
});
