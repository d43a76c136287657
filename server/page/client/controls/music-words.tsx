import { Fragment } from 'preact';
import { accidentalSign } from '../../../../engine/index.ts';
import { DOUBLE_SHARP } from '../../strings/shared-strings.ts';

const SIGN = accidentalSign(2);

/**
 * Words with names of notes in them. Screen readers know flats and sharps, but pass over the sign of a double sharp: it is
 * a picture with its name.
 */
export const MusicWords = ({ children: words }: { readonly children: string }) => (
  <>
    {words.split(SIGN).map((part, i) => (
      <Fragment key={i}>
        {i > 0 && (
          <span role="img" aria-label={` ${DOUBLE_SHARP} `}>
            {SIGN}
          </span>
        )}
        {part}
      </Fragment>
    ))}
  </>
);
