/** What a page draws, an element a line, without what the layout library writes of itself and how letters are packed. */
export const drawnPart = (page: string): string =>
  page
    .replace(/<desc>.*?<\/desc>/s, '')
    .replace(/<style type="text\/css">@font-face.*?<\/style>\n/s, '')
    .replaceAll('><', '>\n<')
    .replace(/[ \t]+$/gm, '');
