import { escapeText } from '../../xml/entities.ts';

/** Attributes by name; those that are null are left out. */
export type Attributes = Readonly<Record<string, string | number | null>>;

const writeAttributes = (attributes: Attributes): string =>
  Object.entries(attributes)
    .filter(([, value]) => value !== null)
    .map(([name, value]) => ` ${name}="${escapeText(`${value}`)}"`)
    .join('');

/** An element with content that is XML already; without content it is empty. */
export const element = (
  name: string,
  attributes: Attributes,
  content: string | readonly string[] = '',
): string => {
  const inner = typeof content === 'string' ? content : content.join('');
  const start = `<${name}${writeAttributes(attributes)}`;
  return inner === '' ? `${start}/>` : `${start}>${inner}</${name}>`;
};

/** An element with text; null or empty text gives nothing. */
export const textElement = (name: string, text: string, attributes: Attributes = {}): string =>
  text === '' ? '' : element(name, attributes, escapeText(text));
