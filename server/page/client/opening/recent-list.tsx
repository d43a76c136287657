import { useEffect, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { forgetPiece, listRecent, type RecentPiece } from '../memory/recent-pieces.ts';
import type { ScoreFile } from '../service/annotate-request.ts';

const words = STRINGS.recent;

/** The pieces that were opened in this browser: to go on with, or to be forgotten. */
export const RecentList = ({ onOpen }: { readonly onOpen: (file: ScoreFile) => void }) => {
  const [pieces, setPieces] = useState<readonly RecentPiece[]>([]);
  const look = (): void => void listRecent().then(setPieces);
  useEffect(look, []);
  if (pieces.length === 0) return null;
  const forget = ({ key }: RecentPiece): void => void forgetPiece(key).then(look);
  return (
    <section class="recent">
      <h2>{words.heading}</h2>
      <p class="aside">{words.where}</p>
      <ul>
        {pieces.map((piece) => (
          <li key={piece.key}>
            <button type="button" class="plain" onClick={() => onOpen(piece.file)}>
              {piece.title}
            </button>
            <span class="aside">
              {words.about(piece.title, piece.file.name, piece.file.bytes.length, new Date(piece.openedAt))}
            </span>
            <button
              type="button"
              class="small"
              aria-label={words.forgetWhat(piece.title)}
              onClick={() => forget(piece)}
            >
              {words.forget}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};
