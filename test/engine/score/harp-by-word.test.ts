import { describe, expect, it } from 'vitest';
import * as mei from './mei/mei-builder.ts';
import { buildScore, note, readScore, words } from './musicxml/musicxml-builder.ts';

describe('a harp that a word calls for inside another part', () => {
  it('is found in MusicXML', () => {
    const parts = [
      { id: 'P0', name: 'Violin', bars: [note('A5', 4)] },
      { id: 'P1', name: 'Klavier', bars: [note('C4', 4), words('nimmt Harfe') + note('E4', 4)] },
    ];
    const score = readScore(buildScore(parts));
    expect(score.harp.name).toBe('Klavier');
    expect(score.notes).toHaveLength(2);
    expect(score.remarks.find(({ code }) => code === 'harp-chosen')?.message).toContain('Klavier');
  });

  it('is found in MEI', () => {
    const staffGrp =
      '<staffGrp><staffDef n="3" lines="5"><label>Oboe</label></staffDef>' +
      '<staffGrp symbol="brace"><label>Piano</label><staffDef n="1" lines="5"/><staffDef n="2" lines="5"/></staffGrp></staffGrp>';
    const flow = mei.bar({ upper: mei.notes('c4', 1), marks: '<dir staff="1" tstamp="1">To Harp</dir>' });
    expect(mei.read(mei.meiScore(flow, { staves: staffGrp })).harp.name).toBe('Piano');
    const quasi = flow.replace('To Harp', 'quasi arpa');
    expect(mei.readResult(mei.meiScore(quasi, { staves: staffGrp })).ok).toBe(false);
  });
});
