import { describe, expect, it } from 'vitest';
import { namingOf } from '../../../server/page/client/downloads/naming.ts';

const HARPS = [
  { id: 'p1', name: 'Harp' },
  { id: 'p2', name: 'Harp' },
];

const part = (more: object = {}) => ({
  titles: { title: 'Evening', subtitle: '', composer: '', arranger: '', rights: '' },
  partName: 'Harp',
  partIds: ['p2'],
  harps: HARPS,
  movements: null,
  ...more,
});

const file = (more: object = {}) => ({ name: 'evening.mxl', bytes: new Uint8Array(), part: null, ...more });

describe('what a download says of the part', () => {
  it('counts harps of the same name, and names none for all of them', () => {
    const { ofPart, ofPiece } = namingOf(file(), part());
    expect(ofPart()('pdf')).toBe('evening - Harp, no. 2.pdf');
    expect(ofPart('card')('png')).toBe('evening - Harp, no. 2 - card.png');
    expect(ofPiece('all harps')('zip')).toBe('evening - all harps.zip');
  });

  it('names the movement that was chosen, by its number where it has no title', () => {
    const alone = { harps: [HARPS[1]!] };
    const named = namingOf(file({ movement: '2' }), part({ ...alone, movements: ['Prelude', 'Bourrée'] }));
    expect(named.ofPart()('pdf')).toBe('evening - Bourrée - Harp.pdf');
    const unnamed = namingOf(file({ movement: '2' }), part({ ...alone, movements: ['', ''] }));
    expect(unnamed.ofPart()('pdf')).toBe('evening - 2 - Harp.pdf');
  });

  it('names the tune of a book', () => {
    const { ofPart } = namingOf(file({ name: 'session.abc', tune: '7' }), part({ harps: [] }));
    expect(ofPart()('pdf')).toBe('session - Evening - Harp.pdf');
  });
});
