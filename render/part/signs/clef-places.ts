import { childrenNamed, descendantsNamed, type Score, type XmlElement } from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { clefSignsOf } from './clef-signs.ts';
import { clefKind, type FileClef, readFileClefs } from './file-clefs.ts';
import { isGrace, layerEvents, ticksOf } from './layer-events.ts';

/**
 * Clefs go where a MusicXML file has them. In a bar of several voices the conversion writes those of other voices in any
 * order behind what stands before them, and a clef behind the grace notes that are to be read in it; the layout goes by the
 * order of the text, so that notes would stand on lines that no printed clef gives them. Each voice gets all clefs of its
 * staff in their order: in one voice each clef itself, in the others what refers to it.
 *
 * Between grace notes and a bar line the layout sets no clef: one of the next bar then goes to the start of that.
 *
 * @param others bars (indices) whose clefs are set by what else is written into them
 */
export const clefPlaceEdits = (score: Score, mei: LayoutMei, others: ReadonlySet<number>): Edit[] => {
  if (score.source.format === 'mei') return [];
  const staves = readFileClefs(score);
  const measures = score.bars.map((bar) => mei.measureOf(bar));
  const textOf = textsOfClefs(mei);
  const graces = placesOfGraces(score, mei);
  return mei.staves.flatMap((n, index) => {
    const clefs = staves[index % staves.length] ?? [];
    const bars = measures.map((measure) => staffOf(measure, n));
    let opening: readonly SetClef[] = [];
    return bars.flatMap((staff, bar) => {
      if (staff === undefined) return [];
      const voices = childrenNamed(staff, 'layer').map((layer) => readVoice(layer, graces));
      const endsInGraces = bars[bar + 1] !== undefined && voices.some((voice) => voice.endsInGraces);
      const begins = opening;
      opening = [];
      const isClear = others.has(bar) || (voices.length === 1 && !endsInGraces);
      const own = isClear ? null : matchClefs(staff, clefs[bar] ?? [], clefs[bar + 1] ?? []);
      if (own === null || !voices.every(({ isTimed }) => isTimed))
        return setClefs(begins, voices.slice(0, 1));
      const name = `${measures[bar]?.attributes['xml:id']}-clef-${n}`;
      const set = own.flatMap((clef, i) => {
        const text = textOf(clef.element);
        return text === null ? [] : [{ ...clef, ...withId(text, `${name}-${i + 1}`) }];
      });
      const isLate = ({ at }: SetClef): boolean => endsInGraces && at === BAR_END;
      opening = set.filter(isLate).map((clef) => ({ ...clef, at: BAR_START }));
      return [
        ...descendantsNamed(staff, 'clef').map(({ span }) => cut(span)),
        ...setClefs([...begins, ...set.filter((clef) => !isLate(clef))], voices),
      ];
    });
  });
};

const staffOf = (measure: XmlElement | undefined, n: string): XmlElement | undefined =>
  measure === undefined
    ? undefined
    : childrenNamed(measure, 'staff').find(({ attributes }) => attributes.n === n);

/** As clefs are printed: null for those that are not. */
const textsOfClefs = (mei: LayoutMei): ((clef: XmlElement) => string | null) => {
  const { hidden, needless } = clefSignsOf(mei);
  return (clef) => {
    if (needless.has(clef)) return null;
    const text = mei.text.slice(clef.span.start, clef.span.end);
    return hidden.has(clef) ? text.replace(/\svisible\s*=\s*(?:"false"|'false')/, '') : text;
  };
};

const withId = (text: string, name: string): Pick<SetClef, 'id' | 'text'> => {
  const id = /\sxml:id\s*=\s*["']([^"']*)["']/.exec(text)?.[1];
  return id === undefined
    ? { id: name, text: text.replace('<clef', `<clef xml:id="${name}"`) }
    : { id, text };
};

/** For grace notes, by their tags: where they stand in the file. */
const placesOfGraces = (score: Score, mei: LayoutMei): ReadonlyMap<number, number> =>
  new Map(
    score.notes.flatMap((note) => {
      const tag = note.grace === null ? undefined : mei.tagOf(note);
      return tag === undefined ? [] : [[tag, note.span.start] as const];
    }),
  );

interface Voice {
  readonly layer: XmlElement;
  readonly events: readonly VoiceEvent[];
  /** Whether it is known when each event begins. */
  readonly isTimed: boolean;
  /** A rest of the whole bar, shown or not, is all it has. */
  readonly isEmpty: boolean;
  readonly endsInGraces: boolean;
}

interface VoiceEvent {
  /** In the divisions of the file. */
  readonly at: number;
  readonly before: number;
  /** Where a grace note stands in the file; null for other events. */
  readonly graceAt: number | null;
}

const WHOLE_BAR: ReadonlySet<string> = new Set(['mRest', 'mSpace']);

const readVoice = (layer: XmlElement, graces: ReadonlyMap<number, number>): Voice => {
  const read = layerEvents(layer);
  const isEmpty = read.every(({ element }) => WHOLE_BAR.has(element.name));
  let at = 0;
  const events = read.map(({ before, element }): VoiceEvent => {
    const place = [element, ...element.children].flatMap(({ span }) => graces.get(span.start) ?? []);
    const event = { at, before, graceAt: isGrace(element) ? (place[0] ?? Number.POSITIVE_INFINITY) : null };
    at += ticksOf(element) ?? Number.NaN;
    return event;
  });
  const last = events.at(-1);
  return {
    ...{ layer, events, isEmpty },
    isTimed: isEmpty || !Number.isNaN(at),
    endsInGraces: last !== undefined && last.graceAt !== null,
  };
};

/** A clef and where in its bar it goes. */
interface SetClef {
  readonly id: string;
  readonly text: string;
  /** From the start of its bar, in the divisions of the file. */
  readonly at: number;
  /** Where it stands in the file. */
  readonly order: number;
}

const BAR_START = Number.NEGATIVE_INFINITY;
const BAR_END = Number.POSITIVE_INFINITY;

type MatchedClef = Pick<SetClef, 'at' | 'order'> & { readonly element: XmlElement };

/** The clefs of a bar, and those of the next one's start, which stand at its end. @returns null where others are in the text */
const matchClefs = (
  staff: XmlElement,
  own: readonly FileClef[],
  next: readonly FileClef[],
): readonly MatchedClef[] | null => {
  const written = descendantsNamed(staff, 'clef').filter(({ attributes }) => attributes.sameas === undefined);
  const wanted = [
    ...own.filter(({ at }) => at > 0).sort((a, b) => a.at - b.at || a.order - b.order),
    ...next.filter(({ at }) => at === 0).map((clef) => ({ ...clef, at: BAR_END })),
  ];
  const left = [...written];
  const matched = wanted.flatMap(({ at, kind, order }) => {
    const found = left.findIndex((each) => clefKind(each) === kind);
    return found < 0 ? [] : left.splice(found, 1).map((element) => ({ at, order, element }));
  });
  return matched.length === wanted.length && left.length === 0 ? matched : null;
};

/** @param clefs in their order */
const setClefs = (clefs: readonly SetClef[], voices: readonly Voice[]): Edit[] => {
  const heard = voices.filter(({ isEmpty }) => !isEmpty);
  const among = heard.length > 0 ? heard : voices.slice(0, 1);
  return clefs.flatMap((clef) => {
    const home = among.find(({ events }) => events.some(({ at }) => at === clef.at)) ?? among[0];
    return among.map((voice) =>
      insertAt(placeIn(voice, clef), voice === home ? clef.text : `<clef sameas="#${clef.id}"/>`),
    );
  });
};

/** Before what the clef holds for: grace notes as the file has them before or behind it. */
const placeIn = ({ events, layer }: Voice, clef: SetClef): number =>
  events.find(
    ({ at, graceAt }) => at > clef.at || (at === clef.at && (graceAt === null || graceAt > clef.order)),
  )?.before ?? layer.inner.end;
