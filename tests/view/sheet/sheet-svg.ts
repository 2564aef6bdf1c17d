import { svgNodes } from '../../../src/view/screens/sheet/svg-nodes';

/** A part of a sheet as the page draws it. */
export function sheetSvg(viewBox: string, body: string): SVGSVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  made.setAttribute('viewBox', viewBox);
  made.setAttribute('fill', 'currentColor');
  made.setAttribute('stroke', 'currentColor');
  made.append(svgNodes(body));
  return made;
}
