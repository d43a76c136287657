import { useEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { goToSection } from './scrolling.ts';

/** What has a heading in the open piece, in the order of the page. */
const findHeadings = (): HTMLElement[] =>
  [...document.querySelectorAll<HTMLElement>('.workspace :is(main, aside) h2')].filter(
    (heading) => heading.closest('dialog') === null,
  );

/** Leads to each section of the open piece by its heading. */
export const GoTo = () => {
  const menu = useRef<HTMLDetailsElement>(null);
  const [headings, setHeadings] = useState<readonly HTMLElement[]>([]);
  useEffect(() => {
    const shut = (event: Event): void => {
      if (!menu.current!.contains(event.target as Node)) menu.current!.open = false;
    };
    addEventListener('pointerdown', shut);
    return () => removeEventListener('pointerdown', shut);
  }, []);
  return (
    <details
      ref={menu}
      class="go-to"
      onToggle={() => setHeadings(menu.current!.open ? findHeadings() : [])}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !menu.current!.open) return;
        event.preventDefault();
        menu.current!.open = false;
        menu.current!.querySelector('summary')!.focus();
      }}
    >
      <summary>{STRINGS.goTo}</summary>
      <ul>
        {headings.map((heading, i) => (
          <li key={i}>
            <button
              type="button"
              class="plain"
              onClick={() => {
                menu.current!.open = false;
                goToSection(heading);
              }}
            >
              {heading.textContent}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
};
