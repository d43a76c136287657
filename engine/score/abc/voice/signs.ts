import type { Articulation, Jump, OrnamentName, Sign } from '../tune.ts';

/** What a decoration of ABC (`!trill!`, `.`, `~`) is. */
export type Decoration =
  | { readonly kind: 'sign'; readonly sign: Sign }
  | { readonly kind: 'jump'; readonly jump: Jump }
  | { readonly kind: 'span-start' | 'span-end'; readonly span: 'crescendo' | 'diminuendo' | 'glissando' }
  | { readonly kind: 'text'; readonly text: string }
  /** Not carried over: told by its name. */
  | { readonly kind: 'lost' };

const articulation = (name: Articulation): Decoration => ({
  kind: 'sign',
  sign: { kind: 'articulation', name },
});
const ornament = (name: OrnamentName): Decoration => ({ kind: 'sign', sign: { kind: 'ornament', name } });
const jump = (name: Jump): Decoration => ({ kind: 'jump', jump: name });
const start = (span: 'crescendo' | 'diminuendo' | 'glissando'): Decoration => ({ kind: 'span-start', span });
const end = (span: 'crescendo' | 'diminuendo' | 'glissando'): Decoration => ({ kind: 'span-end', span });

/** Names as the parser gives them: ABC 2.1, 4.14, with the older ones beside them. */
const DECORATIONS: ReadonlyMap<string, Decoration> = new Map<string, Decoration>([
  ['staccato', articulation('staccato')],
  ['tenuto', articulation('tenuto')],
  ['accent', articulation('accent')],
  ['emphasis', articulation('accent')],
  ['marcato', articulation('marcato')],
  ['umarcato', articulation('marcato')],
  ['wedge', articulation('staccatissimo')],
  ['upbow', articulation('up-bow')],
  ['downbow', articulation('down-bow')],
  ['trill', ornament('trill')],
  ['trill(', ornament('trill')],
  ['trillh', ornament('trill')],
  ['mordent', ornament('mordent')],
  ['lowermordent', ornament('mordent')],
  ['uppermordent', ornament('inverted-mordent')],
  ['pralltriller', ornament('inverted-mordent')],
  ['turn', ornament('turn')],
  ['turnx', ornament('turn')],
  ['invertedturn', ornament('inverted-turn')],
  ['invertedturnx', ornament('inverted-turn')],
  // A roll plays both neighbours of its note, as a turn does (common practice, no source).
  ['roll', ornament('turn')],
  ['irishroll', ornament('turn')],
  ['fermata', { kind: 'sign', sign: { kind: 'fermata' } }],
  ['invertedfermata', { kind: 'sign', sign: { kind: 'fermata' } }],
  ['arpeggio', { kind: 'sign', sign: { kind: 'arpeggio' } }],
  ['segno', jump('segno')],
  ['coda', jump('coda')],
  ['fine', jump('fine')],
  ['D.C.', jump('da-capo')],
  ['D.S.', jump('dal-segno')],
  ['D.C.alfine', jump('da-capo')],
  ['D.C.alcoda', jump('da-capo')],
  ['D.S.alfine', jump('dal-segno')],
  ['D.S.alcoda', jump('dal-segno')],
  ['crescendo(', start('crescendo')],
  ['crescendo)', end('crescendo')],
  ['diminuendo(', start('diminuendo')],
  ['diminuendo)', end('diminuendo')],
  ['glissando(', start('glissando')],
  ['glissando)', end('glissando')],
  ['~(', start('glissando')],
  ['~)', end('glissando')],
  ['breath', { kind: 'text', text: '’' }],
  ...['pppp', 'ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'ffff', 'sfz'].map(
    (text): [string, Decoration] => [text, { kind: 'sign', sign: { kind: 'dynamic', text } }],
  ),
  ...['0', '1', '2', '3', '4', '5'].map((text): [string, Decoration] => [
    text,
    { kind: 'sign', sign: { kind: 'finger', text } },
  ]),
]);

/** What a decoration is, by the name that the parser gives it. */
export const decorationOf = (name: string): Decoration => DECORATIONS.get(name) ?? { kind: 'lost' };

/** Rolls have no sign of their own in MEI and MusicXML. */
export const isRoll = (name: string): boolean => name === 'roll' || name === 'irishroll';
