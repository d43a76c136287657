import { useEffect } from 'preact/hooks';

/** Paper of the size that the pages have, without margins of the browser's. */
const paperSheet = new CSSStyleSheet();

/** Width and height of a page as CSS lengths; null where the page does not say. */
const sizeOf = (svg: string): string | null => {
  const size = /<svg\b[^>]*?\bwidth="([\d.]+mm)"[^>]*?\bheight="([\d.]+mm)"/.exec(svg);
  return size === null ? null : `${size[1]} ${size[2]}`;
};

/**
 * What the browser prints are the pages, each on a sheet of paper of its own size (see `print.css`); but while the list
 * of moves is printed, that alone.
 */
export const usePaperSize = (pages: readonly string[]): void => {
  const size = sizeOf(pages[0] ?? '');
  useEffect(() => {
    const prepare = (): void => {
      // The list of moves has margins of its own.
      const isList = document.querySelector('body > .move-list') !== null;
      paperSheet.replaceSync(isList || size === null ? '' : `@page { size: ${size}; margin: 0; }`);
      if (!document.adoptedStyleSheets.includes(paperSheet)) document.adoptedStyleSheets.push(paperSheet);
    };
    addEventListener('beforeprint', prepare);
    return () => removeEventListener('beforeprint', prepare);
  }, [size]);
};
