import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import type { FollowedNews } from './followed-file.ts';

const words = STRINGS.followed;

const describeNews = ({ savedAt, changes, trouble }: FollowedNews): string => {
  if (trouble !== null) return savedAt === null ? trouble : `${trouble} ${words.stands(savedAt)}`;
  return savedAt === null ? words.waiting : words.shown(savedAt, changes?.length ?? null);
};

const News = createContext<FollowedNews | null>(null);

/** Around everything that is shown of the file. */
export const FollowedNewsProvider = News.Provider;

/** The file that the command follows, as it is seen: which save is shown, and what it changed. */
export const FollowedLine = () => {
  const news = useContext(News);
  if (news === null) return null;
  const { changes, trouble } = news;
  return (
    <div class={`restored followed${trouble === null ? '' : ' trouble'}`}>
      <p>{describeNews(news)}</p>
      {trouble === null && changes !== null && changes.length > 0 && (
        <details>
          <summary>{words.changes}</summary>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by key (WCAG 2.1.1) */}
          <ul tabIndex={0} aria-label={words.changes}>
            {changes.map((change) => (
              <li key={change}>{change}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
};

/** How many changes are told unasked. */
const MOST_TOLD = 4;

/** The same for those who hear the page: it stays while the views of one save give way to those of the next. */
export const FollowedTold = ({ news }: { readonly news: FollowedNews }) => {
  const { changes, trouble } = news;
  const told = trouble === null ? (changes ?? []).slice(0, MOST_TOLD) : [];
  return (
    <p role="status" class="hidden">
      {[describeNews(news), ...told.map((change) => STRINGS.spoken(change).replace(/\.?$/u, '.'))].join(' ')}
    </p>
  );
};
