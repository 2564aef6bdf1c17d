/** Elements of a picture from their text; read as XML, where nothing runs and no style is set. */
export function svgNodes(body: string): DocumentFragment {
  const text = `<svg xmlns="http://www.w3.org/2000/svg">${body}</svg>`;
  const { documentElement } = new DOMParser().parseFromString(text, 'image/svg+xml');
  const nodes = document.createDocumentFragment();
  nodes.append(...documentElement.childNodes);
  return nodes;
}
