import { type Catalogue, entry, oneOf, yesOrNo } from '../../engine/index.ts';

/** How the notes of the part look. */
export const NOTE_OPTIONS = {
  beatCounts: entry(
    'both',
    'notes',
    oneOf({
      label: 'Counts',
      description:
        'Number the beats over the music: in every bar in which the harp plays, in those in which something changes, or nowhere. An exercise without boxes has them in every such bar or nowhere, since those in which something changes are to be found. A compound metre is counted in its main beats unless its metronome mark counts the short ones.',
      values: {
        none: 'none',
        'bars-with-changes': 'in bars with changes',
        'every-bar': 'in every bar',
      },
      default: 'none',
    }),
  ),
  stringColours: entry(
    'both',
    'notes',
    oneOf({
      label: 'Noteheads',
      // Common practice, no source.
      description: 'Colour the noteheads of C and F like their strings on the instrument.',
      values: { none: 'black', 'c-red-f-black': 'C red, F black', 'c-red-f-blue': 'C red, F blue' },
      default: 'none',
    }),
  ),
  crossStaves: entry(
    'both',
    'notes',
    yesOrNo({
      label: 'Write notes with many ledger lines on the other staff',
      // Common practice, no source.
      description:
        'Write notes with five ledger lines or more towards the other staff of the harp on that staff, where it has room for them. Otherwise a remark names their bars.',
      default: false,
    }),
  ),
  fifthFinger: entry(
    'both',
    'notes',
    yesOrNo({
      label: 'Print fingerings with a fifth finger',
      // Common practice, no source.
      description:
        'Print fingerings with a fifth finger, which come from a keyboard: harpists play with four fingers.',
      default: false,
    }),
  ),
  respelledLook: entry(
    'both',
    'notes',
    oneOf({
      label: 'Notes on other strings',
      description:
        'How to show notes that are played on a string of another name. plain: as written; bracketed: with the notehead in brackets; named: with the name of the string beside it, in a chord after the name of the note.',
      values: { plain: 'as written', bracketed: 'in brackets', named: 'with the string’s name' },
      // Read as written, the note would seem to contradict the pedals (common practice, no source).
      default: 'named',
    }),
  ),
} as const satisfies Catalogue;
