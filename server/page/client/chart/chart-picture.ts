/** The rules of the page's style sheet that draw the chart; without the page's colours they use their own. */
const chartRules = (): string =>
  [...document.styleSheets]
    .flatMap((sheet) => [...sheet.cssRules])
    .filter((rule) => rule instanceof CSSStyleRule && rule.selectorText.startsWith('.chart '))
    .map((rule) => rule.cssText)
    .join('\n');

/** The chart as a picture that stands by itself, drawn for white paper. */
export const pictureOf = (chart: SVGSVGElement, width: number, height: number): Blob => {
  const copy = chart.cloneNode(true) as SVGSVGElement;
  copy.querySelector('.playhead')?.remove();
  for (const each of copy.querySelectorAll('[tabindex]')) {
    for (const name of ['tabindex', 'aria-pressed', 'role']) each.removeAttribute(name);
  }
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('viewBox', `0 0 ${width} ${height}`);
  const style = document.createElementNS('http://www.w3.org/2000/svg', 'style');
  style.textContent = chartRules();
  copy.prepend(style);
  return new Blob([new XMLSerializer().serializeToString(copy)], { type: 'image/svg+xml' });
};
