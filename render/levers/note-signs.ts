import {
  escapeText,
  letterAtStep,
  type Note,
  type Rest,
  type Score,
  stepOf,
  type XmlElement,
} from '../../engine/index.ts';
import { type Edit, insertAt } from '../edit.ts';
import type { LayoutMei } from '../layout/document/layout-mei.ts';
import { describeLeverMarking } from '../spoken/describe-levers.ts';
import type { Language } from '../words/language.ts';
import { leverAttributes } from './lever-attributes.ts';
import type { LeverNote } from './lever-change.ts';
import type { LeverMarking } from './lever-markings.ts';

export type NotesMarking = LeverMarking & { readonly kind: 'lever-notes' };

/**
 * Insertions that show lever changes as notes: small, diamond-shaped and without a stem, each before the note, chord or
 * rest at its moment, in the layout's document only. The layout gives them their room like any grace note.
 */
export const noteSignEdits = (score: Score, mei: LayoutMei, markings: readonly NotesMarking[]): Edit[] => {
  if (markings.length === 0) return [];
  const events = new Map<string, Note | Rest>(
    [...score.notes, ...score.rests].map((each) => [each.id, each]),
  );
  const places = placesOf(mei);
  return markings.flatMap(({ changes }) =>
    changes.flatMap((change) => {
      const host = events.get(change.host)!;
      const tag = mei.tagOf(host);
      const place = tag === undefined ? undefined : places.get(tag);
      return place === undefined
        ? []
        : [insertAt(place.before, diamond(change, writtenShift(host, place.element)))];
    }),
  );
};

interface NotePlace {
  readonly element: XmlElement;
  /** Where something can stand before it: before the whole chord, for a note of one. */
  readonly before: number;
}

/** By the start of an event's tag. */
const placesOf = ({ root }: LayoutMei): ReadonlyMap<number, NotePlace> => {
  const places = new Map<number, NotePlace>();
  const visit = (element: XmlElement, chord: XmlElement | null): void => {
    places.set(element.span.start, { element, before: (chord ?? element).span.start });
    for (const each of element.children) visit(each, chord ?? (element.name === 'chord' ? element : null));
  };
  visit(root, null);
  return places;
};

/** Steps from what sounds to what is written, as under an octave line; nothing is known of it from a rest. */
const writtenShift = (host: Note | Rest, { attributes }: XmlElement): number => {
  const { pname, oct } = attributes;
  if (!('pitch' in host) || pname === undefined || oct === undefined || host.harmonic !== null) return 0;
  const written = stepOf({ letter: pname.toUpperCase() as Note['pitch']['letter'], octave: Number(oct) });
  return written - stepOf(host.pitch);
};

const MEI_ACCIDENTAL: Readonly<Record<string, string>> = { '-1': 'f', '0': 'n', '1': 's', '2': 'x' };

const diamond = ({ id, string, alter }: LeverNote, shift: number): string => {
  const { letter, octave } = letterAtStep(stepOf(string) + shift);
  return (
    `<note xml:id="${id}" pname="${letter.toLowerCase()}" oct="${octave}" dur="4" grace="unacc" ` +
    `accid="${MEI_ACCIDENTAL[`${alter}`]}" head.shape="diamond" head.fill="void" stem.visible="false"/>`
  );
};

/** What names the small notes on a page as lever markings: the start tag of each, by its id. */
export const noteSignTags = (
  markings: readonly NotesMarking[],
  barNumberOf: (bar: number) => string,
  language: Language,
): ReadonlyMap<string, string> =>
  new Map(
    markings.flatMap((marking) =>
      marking.changes.map((change) => {
        const only = { ...marking, changes: [change] };
        const tag =
          `<g id="${change.id}" class="note lever-marking lever-note" ` +
          `${leverAttributes(only, barNumberOf(marking.bar))} role="img">` +
          `<title>${escapeText(describeLeverMarking(only, language))}</title>`;
        return [change.id, tag] as const;
      }),
    ),
  );
