/** What a page draws, without what the layout library writes of itself and how the letters are packed. */
export const drawnPart = (page: string): string =>
  page
    .replace(/<desc>.*?<\/desc>/s, '')
    .replace(/<style type="text\/css">@font-face.*?<\/style>\n/s, '')
    .replace(/[ \t]+$/gm, '');
