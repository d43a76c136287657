import { describe, expect, it } from 'vitest';
import { nameByBars } from '../../../render/part/made-up-ids.ts';

const SOURCE =
  '<score-partwise><part id="P1"><measure id="b1"><note id="n1"/></measure></part></score-partwise>';

describe('names that the conversion makes up', () => {
  it('are left out where nothing refers to them, and those of the file stay', () => {
    const mei = '<measure xml:id="b1"><staff xml:id="x8yz" n="1"><note xml:id="n1"/></staff></measure>';
    expect(nameByBars(mei, SOURCE)).toBe(
      '<measure xml:id="b1"><staff n="1"><note xml:id="n1"/></staff></measure>',
    );
  });

  it('are made of their bar where something refers to them, whatever stands before it', () => {
    const bar =
      '<measure xml:id="b1"><chord xml:id="q7"><note xml:id="n1"/></chord><slur xml:id="z" startid="#q7" endid="#n1"/></measure>';
    const named = nameByBars(bar, SOURCE);
    expect(named).toContain('<chord xml:id="in-b1-1">');
    expect(named).toContain('startid="#in-b1-1" endid="#n1"');
    const before = '<measure xml:id="b0"><chord xml:id="k"/><arpeg plist="#k"/></measure>';
    expect(nameByBars(`${before}${bar.replaceAll('q7', 'other')}`, SOURCE)).toContain(named);
  });

  it('are unlike those of the file', () => {
    const mei =
      '<measure xml:id="b1"><chord xml:id="q"/><arpeg plist="#q"/><note xml:id="in-b1-1"/></measure>';
    expect(nameByBars(mei, `${SOURCE}<note id="in-b1-1"/>`)).toContain('plist="#in-b1-1_"');
  });

  it('leave colours and characters alone that begin with the same sign', () => {
    const mei = '<measure xml:id="b1"><dir color="#ff0000">a &#160; b</dir></measure>';
    expect(nameByBars(mei, SOURCE)).toBe(mei);
  });
});
