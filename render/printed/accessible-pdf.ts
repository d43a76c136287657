/** What of a PDF is rewritten: objects by their numbers, as they stand in the file. */
interface PdfObjects {
  readonly catalog: number;
  readonly metadata: number;
}

/** Of the schema for the claim, as PDF/A-2 wants each foreign property described (ISO 19005-2, 6.6.2.3). */
const SCHEMA = `<rdf:li rdf:parseType="Resource"><pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema><pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI><pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix><pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource"><pdfaProperty:category>internal</pdfaProperty:category><pdfaProperty:description>Part of ISO 14289 to which the document conforms</pdfaProperty:description><pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType></rdf:li></rdf:Seq></pdfaSchema:property></rdf:li>`;

/**
 * Adds to a tagged PDF what PDF/UA-1 asks for beside PDF/A-2a: viewers show the title of the document, and the metadata
 * name the standard (ISO 14289-1, 5 and 7.1). Typst writes one standard a file; the two do not contradict each other. It
 * also leaves out `/Suspects false`, which says nothing and which Poppler complains of.
 *
 * It is an incremental update (ISO 32000-1, 7.5.6): the bytes before it stay as they are.
 *
 * @param pdf as Typst writes PDF/A-2a, with a plain cross-reference table; anything else is a bug and throws
 */
export const claimAccessible = (pdf: Uint8Array): Uint8Array => {
  const text = Buffer.from(pdf).toString('latin1');
  const start = /startxref\s+(\d+)\s+%%EOF\s*$/.exec(text)?.[1];
  const trailer = text
    .slice(text.lastIndexOf('trailer') + 'trailer'.length, text.lastIndexOf('startxref'))
    .trim();
  const objects = findObjects(text, trailer);
  if (start === undefined || objects === null) throw new Error('the PDF has no trailer that can be added to');
  const rewritten = [
    { number: objects.metadata, content: claimInMetadata(objectAt(text, objects.metadata)) },
    { number: objects.catalog, content: showTitle(objectAt(text, objects.catalog)) },
  ];
  let added = '\n';
  const entries = rewritten.map(({ content, number }) => {
    const offset = text.length + added.length;
    added += `${number} 0 obj\n${content}\nendobj\n`;
    return `${number} 1\n${String(offset).padStart(10, '0')} 00000 n \n`;
  });
  const xref = text.length + added.length;
  added += `xref\n${entries.join('')}trailer\n${trailer.replace(/>>\s*$/, `  /Prev ${start}\n>>`)}\nstartxref\n${xref}\n%%EOF`;
  return new Uint8Array(Buffer.concat([pdf, Buffer.from(added, 'latin1')]));
};

const findObjects = (text: string, trailer: string): PdfObjects | null => {
  const catalog = Number(/\/Root (\d+) 0 R/.exec(trailer)?.[1]);
  const metadata = Number(
    /\/Metadata (\d+) 0 R/.exec(Number.isNaN(catalog) ? '' : objectAt(text, catalog))?.[1],
  );
  return Number.isNaN(metadata) ? null : { catalog, metadata };
};

const objectAt = (text: string, number: number): string => {
  const head = `\n${number} 0 obj\n`;
  const start = text.lastIndexOf(head);
  if (start < 0) throw new Error(`the PDF has no object ${number}`);
  return text.slice(start + head.length, text.indexOf('\nendobj', start));
};

const showTitle = (catalog: string): string =>
  catalog
    .replace(/\s*\/Suspects false/, '')
    .replace('/ViewerPreferences <<', '/ViewerPreferences <<\n    /DisplayDocTitle true');

/** The metadata are a stream of bytes whose length stands before it. */
const claimInMetadata = (object: string): string => {
  const [, dictionary = '', stream = ''] = /^([\s\S]*?)\nstream\n([\s\S]*)\nendstream$/.exec(object) ?? [];
  const claimed = stream
    .replace('xmlns:pdfaid=', 'xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" xmlns:pdfaid=')
    .replace('<pdfaExtension:schemas><rdf:Bag>', `<pdfaExtension:schemas><rdf:Bag>${SCHEMA}`)
    .replace('<pdfaid:part>', '<pdfuaid:part>1</pdfuaid:part><pdfaid:part>');
  if (!claimed.includes('xmlns:pdfuaid') || !claimed.includes('<pdfuaid:part>') || !claimed.includes(SCHEMA))
    throw new Error('the metadata of the PDF are not as expected');
  return `${dictionary.replace(/\/Length \d+/, `/Length ${claimed.length}`)}\nstream\n${claimed}\nendstream`;
};
