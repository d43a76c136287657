import { useEffect } from 'preact/hooks';
import { sizeOf } from './page-drawing.ts';

/** Paper of the size that the pages have, without margins of the browser's. */
const paperSheet = new CSSStyleSheet();

/**
 * What the browser prints are the pages, each on a sheet of paper of its own size (see `print.css`); but while the list
 * of moves is printed, that alone.
 */
export const usePaperSize = (pages: readonly string[]): void => {
  const size = sizeOf(pages[0] ?? '');
  const paper = size === null ? null : `${size.widthMm}mm ${size.heightMm}mm`;
  useEffect(() => {
    const prepare = (): void => {
      // The list of moves has margins of its own.
      const isList = document.querySelector('body > .move-list') !== null;
      paperSheet.replaceSync(isList || paper === null ? '' : `@page { size: ${paper}; margin: 0; }`);
      if (!document.adoptedStyleSheets.includes(paperSheet)) document.adoptedStyleSheets.push(paperSheet);
    };
    addEventListener('beforeprint', prepare);
    return () => removeEventListener('beforeprint', prepare);
  }, [paper]);
};
