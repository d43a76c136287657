import {
  childrenNamed,
  childText,
  listParts,
  type Part,
  rational,
  type Score,
  toNumber,
  walkBar,
  type XmlElement,
} from '../../../engine/index.ts';

/** A clef of a MusicXML file. */
export interface FileClef {
  /** From the start of its bar, in the divisions of the file. */
  readonly at: number;
  /** Where it stands in the file. */
  readonly order: number;
  /** What makes it another, as `clefKind` tells it of MEI. */
  readonly kind: string;
}

/** The clefs of each staff of the harp, from the top, in each bar by its index. */
export const readFileClefs = ({ harp, source }: Score): readonly (readonly (readonly FileClef[])[])[] =>
  listParts(source.root, source.format)
    .filter(({ id }) => harp.partIds.includes(id))
    .flatMap(clefsOfPart);

const clefsOfPart = ({ bars }: Part): FileClef[][][] => {
  let divisions = rational(1);
  let staves = 1;
  const read = bars.map(({ content }) => {
    const clefs: (FileClef & { readonly staff: number })[] = [];
    const walked = walkBar(
      content,
      divisions,
      ({ at, divisions: ticks, element }) => {
        if (element.name !== 'attributes') return;
        staves = Math.max(staves, Number(childText(element, 'staves') ?? 1));
        for (const clef of childrenNamed(element, 'clef')) {
          const staff = Number(clef.attributes.number ?? 1);
          clefs.push({
            staff,
            at: toNumber(at) * toNumber(ticks),
            order: clef.span.start,
            kind: kindInFile(clef),
          });
        }
      },
      false,
    );
    divisions = walked.divisions;
    return clefs;
  });
  return Array.from({ length: staves }, (_, index) =>
    read.map((clefs) => clefs.filter(({ staff }) => staff === index + 1)),
  );
};

/** The usual lines, where a file names none (MusicXML 4.0, `line`). */
const LINES: Readonly<Record<string, string>> = { G: '2', F: '4', C: '3' };

const kindInFile = (clef: XmlElement): string => {
  const sign = childText(clef, 'sign') ?? '';
  const octaves = Number(childText(clef, 'clef-octave-change') ?? 0);
  return [sign, childText(clef, 'line') ?? LINES[sign] ?? '', octaves].join(' ');
};

const OCTAVES: Readonly<Record<string, number>> = { 8: 1, 15: 2, 22: 3 };

/** Sign, line and octaves of a clef in MEI. */
export const clefKind = ({ attributes }: XmlElement): string => {
  const octaves = OCTAVES[attributes.dis ?? ''] ?? 0;
  const { shape = '', line = '' } = attributes;
  return [shape, line, attributes['dis.place'] === 'below' && octaves > 0 ? -octaves : octaves].join(' ');
};
