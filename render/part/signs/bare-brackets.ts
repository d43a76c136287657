import { descendantsNamed } from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/** The bracket of a tuplet whose figure the file hides is hidden with it: without the figure it says nothing. */
export const bareBracketEdits = ({ root, text }: LayoutMei): Edit[] =>
  descendantsNamed(root, 'tuplet', 'tupletSpan')
    .filter(
      ({ attributes }) => attributes['num.visible'] === 'false' && attributes['bracket.visible'] !== 'false',
    )
    .map(({ span }) => setAttribute(text, span.start, 'bracket.visible', 'false'));
