import { describe, expect, it } from 'vitest';
import {
  checkEngraving,
  completeEngraving,
  DEFAULT_ENGRAVING,
  paperSize,
} from '../../render/engraving-options.ts';
import { nameNote } from '../../render/markings/note-names.ts';
import { makeIdsUnique } from '../../render/printed/unique-ids.ts';

describe('engraving options', () => {
  it('are the defaults where nothing is chosen, also among the occasions for a setting', () => {
    expect(completeEngraving()).toEqual(DEFAULT_ENGRAVING);
    const { settings, density } = completeEngraving({ density: 'changes', settings: { systemStart: true } });
    expect(density).toBe('changes');
    expect(settings).toEqual({ ...DEFAULT_ENGRAVING.settings, systemStart: true });
  });

  it('name the strings of notes on other strings for either harp, unless the user wants them plain', () => {
    for (const harp of ['lever', 'pedal'] as const) {
      expect(completeEngraving({}, harp).respelledLook).toBe('named');
      expect(completeEngraving({ respelledLook: 'plain' }, harp).respelledLook).toBe('plain');
    }
  });

  it('know the size of the papers: A4 by ISO 216, letter and 9 x 12 in by the inch', () => {
    expect(paperSize('a4')).toEqual({ widthMm: 210, heightMm: 297 });
    expect(paperSize('letter')).toEqual({ widthMm: 215.9, heightMm: 279.4 });
    expect(paperSize('concert-part')).toEqual({ widthMm: 228.6, heightMm: 304.8 });
  });

  it.each([2.9, 14.1, Number.NaN, Number.POSITIVE_INFINITY])('refuse a staff of %d mm', (staffMm) => {
    const checked = checkEngraving(completeEngraving({ staffMm }));
    expect(checked).toMatchObject({ ok: false, problem: { code: 'unsupported' } });
  });
});

describe('a note is named', () => {
  it.each([
    ['C', 1, 'Cis'],
    ['D', -1, 'Des'],
    ['E', -1, 'Es'],
    ['A', -1, 'As'],
    ['B', -1, 'B'],
    ['B', 0, 'H'],
    ['B', 1, 'His'],
    ['F', 0, 'F'],
  ] as const)('%s %d in German: %s', (letter, position, word) => {
    expect(nameNote(letter, position, 'german')).toEqual({ word, accidental: null });
  });

  it('with an accidental in English and fixed-do, the natural too', () => {
    expect(nameNote('G', 0, 'english')).toEqual({ word: 'G', accidental: 0 });
    expect(nameNote('G', 0, 'fixed-do')).toEqual({ word: 'Sol', accidental: 0 });
    expect(nameNote('B', -1, 'fixed-do')).toEqual({ word: 'Si', accidental: -1 });
  });
});

describe('ids of several pages', () => {
  it('are made unique, and what refers to them follows', () => {
    const page = '<svg id="s"><g id="E0A4-x"/><use xlink:href="#E0A4-x"/><g id="n1"/></svg>';
    const [first, second] = makeIdsUnique([page, page.replace('n1', 'n2')]);
    expect(first).toBe(page);
    expect(second).toBe(
      '<svg id="s-page-2"><g id="E0A4-x-page-2"/><use xlink:href="#E0A4-x-page-2"/><g id="n2"/></svg>',
    );
  });
});
