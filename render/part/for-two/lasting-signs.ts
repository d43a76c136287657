import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';

/** What holds for the bars after, and stays where the music of a layer goes. */
const LASTING = ['clef', 'keySig', 'meterSig'];

export const holdsLastingSigns = (layer: XmlElement): boolean =>
  descendantsNamed(layer, ...LASTING).length > 0;

/** Signs to be written about the rest that fills a bar. */
interface SignsAboutRest {
  readonly opening: string;
  readonly later: string;
}

/**
 * What the layers of a staff leave for the bars after, where all their music goes: of several clefs the last alone, at the
 * bar's start if it stands there. A clef may stand in one layer and be repeated in the others by reference (`sameas`): each
 * is written out, and without its id, for what it refers to may go with its layer.
 */
export const lastingSigns = (text: string, layers: readonly XmlElement[]): SignsAboutRest => {
  const found = layers.flatMap((layer) =>
    descendantsNamed(layer, ...LASTING).map((sign) => ({ sign, isOpening: sign === layer.children[0] })),
  );
  const clefs = found.filter(({ sign }) => sign.name === 'clef');
  const lastClef = clefs.at(-1);
  // Keys and metres are the same in all layers: those of the first are enough.
  const kept = found.filter(
    (each) => each === lastClef || (each.sign.name !== 'clef' && isWithin(each.sign, layers[0])),
  );
  const write = (isOpening: boolean): string =>
    kept
      .filter((each) => each.isOpening === isOpening)
      .map(({ sign }) =>
        writeSign(
          text,
          meantBy(
            sign,
            clefs.map((each) => each.sign),
          ),
        ),
      )
      .join('');
  return { opening: write(true), later: write(false) };
};

const isWithin = ({ span }: XmlElement, holder: XmlElement | undefined): boolean =>
  holder !== undefined && span.start >= holder.span.start && span.end <= holder.span.end;

const meantBy = (sign: XmlElement, clefs: readonly XmlElement[]): XmlElement => {
  const named = sign.attributes.sameas?.replace(/^#/, '');
  return clefs.find(({ attributes }) => named !== undefined && attributes['xml:id'] === named) ?? sign;
};

const writeSign = (text: string, { span }: XmlElement): string =>
  text.slice(span.start, span.end).replace(/\sxml:id\s*=\s*(?:"[^"]*"|'[^']*')/g, '');
