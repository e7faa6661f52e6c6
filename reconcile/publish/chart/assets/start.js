"use strict";
// Where the script works: in a page of its own. In a seller's page it works in an element instead, and embed.js gives it this.
const page = {
  root: document, top: document.querySelector(".page"), namespace: document.getElementById("drawing").namespaceURI, embedded: false,
  data: JSON.parse(document.getElementById("chart-data").textContent),
};
