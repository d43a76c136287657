import type { PageLayout } from '../breaks/page-layout.ts';

/** Something that the layout is to draw, as it can be told to another thread: pages of a document, or all of it unbroken. */
export type DrawingTask =
  | { readonly kind: 'unbroken'; readonly mei: string; readonly layout: PageLayout }
  | {
      readonly kind: 'pages';
      readonly mei: string;
      readonly layout: PageLayout;
      readonly pages: readonly number[];
      readonly apartVu: number;
    };

/** SVGs; null where the layout cannot load the document. */
export type Drawn = readonly string[] | null;
