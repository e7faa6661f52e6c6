// The chart as one element of a seller's page. It has its own tree and its own style, and leaves no name behind but the element's.
const namespace = "http://www.w3.org/2000/svg";
// grow makes the elements of a tree: [name, attributes, children...], or a text. No markup is parsed, which a policy may forbid.
function grow(node, space) {
  if (typeof node === "string") return document.createTextNode(node);
  const [name, attributes, ...children] = node, inner = name === "svg" ? namespace : space;
  const e = inner ? document.createElementNS(inner, name) : document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
  e.append(...children.map((child) => grow(child, inner)));
  return e;
}
if (!customElements.get("fit-chart")) customElements.define("fit-chart", class extends HTMLElement {
  connectedCallback() {
    if (this.shadowRoot) return;
    const root = this.attachShadow({mode: "open"}), sheet = new CSSStyleSheet(), top = grow(tree);
    sheet.replaceSync(style);
    root.adoptedStyleSheets = [sheet];
    root.append(top);
    start({root, top, namespace, data, embedded: true});
    new ResizeObserver(() => {
      const {width, height} = top.getBoundingClientRect();
      this.dispatchEvent(new CustomEvent("fit-chart-size", {bubbles: true, detail: {width, height}}));
    }).observe(top);
  }
});
