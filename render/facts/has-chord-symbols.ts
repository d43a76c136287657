import { descendantsNamed, type Score } from '../../engine/index.ts';

/** Whether chord symbols stand in the harp's own part. */
export const hasChordSymbols = ({
  source: { format, root },
  harp,
}: Pick<Score, 'source' | 'harp'>): boolean =>
  format === 'mei'
    ? descendantsNamed(root, 'harm').some(({ attributes }) =>
        (attributes.staff ?? '').split(' ').some((staff) => harp.meiStaves.includes(staff)),
      )
    : descendantsNamed(root, 'part')
        .filter(({ attributes }) => harp.partIds.includes(attributes.id ?? ''))
        .some((part) => descendantsNamed(part, 'harmony').length > 0);
